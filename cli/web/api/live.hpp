#pragma once
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "workshop/job_assessment.hpp"
#include "record/inspection.hpp"

/// How each open job stands, kept in memory so that a tap costs one inference. The book is the truth: a state belongs to the text
/// of the job's entries, and when that text is another, it is worked out anew.
namespace exworks::cli::web {

struct State {
  const Tables* tables = nullptr;
  std::string text;                             ///< the inspection
  Inspection inspection;
  std::shared_ptr<const Assessment> assessment; ///< null when nothing was seen yet, or `trouble` says why not
  std::shared_ptr<const Assessment> before;     ///< as it stood before the latest answers
  std::string trouble;
};

class LiveJobs {
 public:
  explicit LiveJobs(Packs& packs) : packs_(packs) {}

  /// `text` is called with the job locked, so that of many edits at once the last sees them all and the others get its state.
  template <class Text>
  std::shared_ptr<const State> state(std::int64_t job, Text&& text) {
    const std::shared_ptr<Slot> slot = slot_of(job);
    const std::lock_guard lock(slot->mutex);
    return renew(*slot, text());
  }

  /// The same with what takes longer: readings, fit, what an answer hangs on. Worked out once a state.
  std::shared_ptr<const Assessment> whole(std::int64_t job, const State& state);

 private:
  struct Slot {
    std::mutex mutex;
    std::shared_ptr<const State> state;
    std::mutex whole_mutex;
    std::string whole_text;
    std::shared_ptr<const Assessment> whole;
    std::uint64_t used = 0;
  };
  std::shared_ptr<Slot> slot_of(std::int64_t job);
  std::shared_ptr<const State> renew(Slot& slot, std::string text);

  Packs& packs_;
  std::mutex mutex_;
  std::map<std::int64_t, std::shared_ptr<Slot>> slots_;
  std::uint64_t turn_ = 0;
};

}  // namespace exworks::cli::web
