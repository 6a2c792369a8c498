#pragma once
#include <mutex>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "workshop/job_assessment.hpp"
#include "workshop/schemes.hpp"
#include "book/book.hpp"
#include "web/api/live.hpp"
#include "web/http/refusal.hpp"

/// What every request shares: the book, the packs, how each job stands.
namespace exworks::cli::web {

using Json = nlohmann::ordered_json;

class Context {
 public:
  Context(Book book, Rules rules) : packs_(std::move(rules)), lives_(packs_), book_(std::move(book)) {}

  /// Reads every pack, and the schemes; packs with mistakes are left out, and said.
  std::vector<std::string> load_packs();
  const std::vector<const Tables*>& families() const { return families_; }
  const std::vector<Scheme>& schemes() const { return schemes_; }
  /// Throws Refusal when there is no such family.
  const Tables& family(const std::string& id) const;

  /// One connection to the book, one user of it at a time.
  template <class Work>
  auto with_book(Work&& work) {
    const std::lock_guard lock(book_mutex_);
    return work(book_);
  }

  /// Throws Refusal 404 when the book has no such job.
  Job job(std::int64_t id);
  std::shared_ptr<const State> state(std::int64_t job);
  LiveJobs& lives() { return lives_; }

 private:
  Packs packs_;
  LiveJobs lives_;
  std::vector<const Tables*> families_;
  std::vector<Scheme> schemes_;
  std::mutex book_mutex_;
  Book book_;
};

}  // namespace exworks::cli::web
