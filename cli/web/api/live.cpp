#include "web/api/live.hpp"

#include <algorithm>

#include "record/inspection_reader.hpp"

namespace exworks::cli::web {

namespace {

constexpr std::size_t most_live = 64;

bool says_something(const Inspection& in) { return !in.observations.empty() || !in.numbers.empty() || !in.claims.empty() || !in.documents.empty() || !in.codes.empty(); }

std::string first_error(const Diagnostics& d) {
  for (const Diagnostic& one : d.sorted()) {
    if (one.severity == Severity::error) return one.what + "; " + one.remedy;
  }
  return "";
}

std::shared_ptr<State> worked_out(Packs& packs, std::string text) {
  auto state = std::make_shared<State>();
  state->text = std::move(text);
  Diagnostics d;
  auto inspection = read_inspection(state->text, "the job", d);
  if (inspection) {
    state->inspection = std::move(*inspection);
    try {
      state->tables = &tables_or_failed(packs, state->inspection.family);
    } catch (const Failed& f) {
      state->trouble = f.why;
      return state;
    }
    if (!says_something(state->inspection)) return state;
    auto assessment = assess(*state->tables, state->inspection, batch_settings(true), Given{}, d);
    if (assessment) state->assessment = std::make_shared<const Assessment>(std::move(*assessment));
  }
  state->trouble = first_error(d);
  return state;
}

}  // namespace

std::shared_ptr<LiveJobs::Slot> LiveJobs::slot_of(std::int64_t job) {
  const std::lock_guard lock(mutex_);
  auto& slot = slots_[job];
  if (!slot) slot = std::make_shared<Slot>();
  slot->used = ++turn_;
  const auto out = slot;
  if (slots_.size() > most_live) {
    slots_.erase(std::min_element(slots_.begin(), slots_.end(), [](const auto& a, const auto& b) { return a.second->used < b.second->used; }));
  }
  return out;
}

std::shared_ptr<const State> LiveJobs::renew(Slot& slot, std::string text) {
  if (slot.state && slot.state->text == text) return slot.state;
  const std::shared_ptr<State> next = worked_out(packs_, std::move(text));
  if (slot.state) next->before = slot.state->assessment;
  return slot.state = next;
}

std::shared_ptr<const Assessment> LiveJobs::whole(std::int64_t job, const State& state) {
  if (!state.assessment) return nullptr;
  const std::shared_ptr<Slot> slot = slot_of(job);
  const std::lock_guard lock(slot->whole_mutex);
  if (slot->whole && slot->whole_text == state.text) return slot->whole;
  Diagnostics ignored;  // the quick assessment of the same text has none
  auto assessment = assess(*state.tables, state.inspection, batch_settings(false), Given{}, ignored);
  if (!assessment) return state.assessment;
  slot->whole_text = state.text;
  return slot->whole = std::make_shared<const Assessment>(std::move(*assessment));
}

}  // namespace exworks::cli::web
