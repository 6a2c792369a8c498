#include "assess/questions/next_checks.hpp"

#include <algorithm>

#include "engine/evidence/documents.hpp"
#include "assess/marginals.hpp"

namespace exworks {

namespace {

class Planner {
 public:
  Planner(const Tables& t, Evidence evidence, Aim aim, const Settings& settings) : t_(t), e_(std::move(evidence)), aim_(aim), settings_(settings), p_(infer(t, e_)) {}

  std::vector<Check> ranked() const {
    std::vector<Check> out;
    for (const Outlook& o : outlooks(t_, e_, p_, open_verdicts())) {
      Check c;
      c.feature = o.feature;
      c.build_bits = o.build_bits;
      c.verdict_bits = o.verdict_bits;
      c.minutes = t_.features[o.feature].minutes;
      c.noted = o.noted;
      const double bits = aim_ == Aim::build ? c.build_bits : aim_ == Aim::verdicts ? c.verdict_bits : c.build_bits + c.verdict_bits;
      c.bits_per_minute = bits / c.minutes;
      if (bits >= settings_.worth_looking_bits) out.push_back(std::move(c));
    }
    std::stable_sort(out.begin(), out.end(), [](const Check& a, const Check& b) { return a.bits_per_minute > b.bits_per_minute; });
    return out;
  }

  void fill_outcomes(Check& c) const {
    for (ValueIndex v; v < c.noted.size(); ++v) {
      if (c.noted[v] < settings_.outcome_shown_from) continue;
      const Posterior then = infer(t_, with_note(t_, e_, c.feature, v));
      const Marginals now = marginals(t_, then.build, settings_.level);
      c.outcomes.push_back({v, c.noted[v], now.variants.front().index, now.variants.front().p, now.date});
    }
    std::stable_sort(c.outcomes.begin(), c.outcomes.end(), [](const Outcome& a, const Outcome& b) { return a.p > b.p; });
  }

  /// Takes the likeliest outcome of a look as seen.
  void assume(const Check& c) {
    e_ = with_note(t_, e_, c.feature, ValueIndex(static_cast<std::size_t>(std::max_element(c.noted.begin(), c.noted.end()) - c.noted.begin())));
    p_ = infer(t_, e_);
  }

  const Posterior& posterior() const { return p_; }

 private:
  std::vector<FeatureIndex> open_verdicts() const {
    std::vector<FeatureIndex> open;
    if (aim_ == Aim::build) return open;
    for (const FeatureFinding& f : feature_findings(e_, p_)) {
      if (f.p_silent <= settings_.partly_silent_from && f.p_type > settings_.later_to && f.p_type < settings_.original_from) open.push_back(f.feature);
    }
    return open;
  }

  const Tables& t_;
  Evidence e_;
  Aim aim_;
  const Settings& settings_;
  Posterior p_;
};

}  // namespace

NextChecks next_checks(const Tables& t, const Inspection& inspection, Aim aim, std::optional<double> budget, std::size_t most, Diagnostics& d, const Settings& settings) {
  const std::size_t errors = d.error_count();
  Evidence evidence = bind(t, inspection, d);
  NextChecks out;
  if (d.error_count() > errors) return out;
  evidence.document_weight = document_weights(document_likelihoods(t, inspection), t.builds());
  // What was looked at without an answer is not worth a second look.
  std::vector<std::size_t> looked;
  for (const Observation& o : inspection.observations) {
    if (o.state == LookState::missing || o.state == LookState::cannot_tell) looked.push_back(t.feature_index.at(o.feature));
  }
  Planner planner(t, std::move(evidence), aim, settings);
  out.date = marginals(t, planner.posterior().build, settings.level).date;
  const auto wanted = [&](std::vector<Check> checks) {
    std::erase_if(checks, [&](const Check& c) { return std::find(looked.begin(), looked.end(), c.feature) != looked.end(); });
    return checks;
  };
  std::vector<Check> ranked = wanted(planner.ranked());
  const std::size_t unseen = t.feature_index.size() - inspection.observations.size();
  out.left_out = unseen > ranked.size() ? unseen - ranked.size() : 0;
  if (ranked.empty()) {
    out.nothing_left = true;
    return out;
  }
  if (!budget) {
    if (ranked.size() > most) ranked.resize(most);
    for (Check& c : ranked) planner.fill_outcomes(c);
    out.checks = std::move(ranked);
  } else {
    while (!ranked.empty()) {
      const auto fits = std::find_if(ranked.begin(), ranked.end(), [&](const Check& c) { return out.minutes + c.minutes <= *budget + 1e-9; });
      if (fits == ranked.end()) break;
      Check c = *fits;
      planner.fill_outcomes(c);
      planner.assume(c);
      out.minutes += c.minutes;
      out.checks.push_back(std::move(c));
      ranked = wanted(planner.ranked());
    }
    std::stable_sort(out.checks.begin(), out.checks.end(), [&](const Check& a, const Check& b) { return t.features[a.feature].place < t.features[b.feature].place; });
    out.no_time = out.checks.empty();
  }
  if (out.minutes == 0) {
    for (const Check& c : out.checks) out.minutes += c.minutes;
  }
  return out;
}

}  // namespace exworks
