#include "study/trial.hpp"

#include <algorithm>
#include <cmath>

#include "base/parallel.hpp"
#include "engine/infer/lookahead.hpp"
#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"
#include "study/draws.hpp"

namespace exworks {

namespace {

/// One vehicle's outcome, kept apart so that threads don't change the sums.
struct Outcome {
  bool variant_first = false, within_6 = false, printed_covers = false, score_covers = false, scored = false;
  double exact_covers = 0;
  int window = 0;
  std::vector<std::pair<double, bool>> features;  ///< P(type as built), whether it is
  std::size_t originals = 0, right_originals = 0, laters = 0, right_laters = 0, uncertain = 0;
};

/// The date set in whole months holds somewhat more than 90 %. To test the odds themselves its longer-odds end month is cut
/// so that exactly 90 % remain, dates being even within a month; the share of the true month that is left is returned.
double exact_cover(const std::vector<double>& odds, Month first, const DateSet& set, Month truth) {
  if (truth < set.from || truth > set.to) return 0;
  const auto at = [&](Month m) { return odds[static_cast<std::size_t>(m - first)]; };
  double held = 0;
  for (Month m = set.from; m <= set.to; m = m + 1) held += at(m);
  const double surplus = held - set.level;
  const Month cut = at(set.from) <= at(set.to) ? set.from : set.to;
  if (truth != cut || at(cut) <= 0) return 1;
  return 1 - std::min(1.0, std::max(0.0, surplus / at(cut)));
}

Month median_month(const std::vector<double>& odds, Month first) {
  double sum = 0;
  for (std::size_t i = 0; i < odds.size(); ++i) {
    sum += odds[i];
    if (sum >= 0.5) return first + static_cast<int>(i);
  }
  return first;
}

Outcome assess_one(const Tables& t, const World& world, std::uint64_t seed, double coverage) {
  Random random(seed);
  const double share = coverage < 0 ? 0.3 + 0.7 * random.unit() : coverage;
  const SimulatedVehicle v = simulate_vehicle(t, world, share, random);
  const Posterior p = infer(t, v.evidence);
  const Settings settings;
  const Marginals m = marginals(t, p.build, settings.level);
  Outcome out;
  out.variant_first = m.variants.front().index == t.routes[v.route].variant;
  out.within_6 = std::abs(median_month(m.month_odds, m.first_month) - v.month) <= 6;
  out.printed_covers = v.month >= m.date.from && v.month <= m.date.to;
  out.exact_covers = exact_cover(m.month_odds, m.first_month, m.date, v.month);
  out.window = m.date.to - m.date.from + 1;
  const auto findings = feature_findings(v.evidence, p);
  int weight = 0, built = 0;
  for (const FeatureFinding& f : findings) {
    const bool truth = v.as_built[f.seen];
    out.features.emplace_back(f.p_type, truth);
    if (f.p_silent <= 0.5) {
      weight += t.features[f.feature].weight;
      built += truth ? t.features[f.feature].weight : 0;
    }
    switch (verdict_by_odds(t, f, v.evidence.seen[f.seen], settings)) {
      case VerdictKind::original: ++out.originals, out.right_originals += truth ? 1 : 0; break;
      case VerdictKind::later_change: ++out.laters, out.right_laters += truth ? 0 : 1; break;
      case VerdictKind::uncertain: ++out.uncertain; break;
    }
  }
  if (weight > 0) {
    const Score score = originality_score(t, p, findings);
    const double truth = static_cast<double>(built) / weight;
    out.scored = true;
    out.score_covers = truth >= score.low - 1e-9 && truth <= score.high + 1e-9;
  }
  return out;
}

double ratio(double a, double b) { return b > 0 ? a / b : 0; }

TrialResult sum_up(const std::vector<Outcome>& outcomes) {
  TrialResult r;
  const double n = static_cast<double>(outcomes.size());
  double scored = 0, covered = 0, originals = 0, right_originals = 0, laters = 0, right_laters = 0, uncertain = 0, features = 0;
  std::vector<int> windows;
  r.reliability.resize(10);
  for (std::size_t i = 0; i < 10; ++i) r.reliability[i].from = static_cast<double>(i) / 10, r.reliability[i].to = static_cast<double>(i + 1) / 10;
  for (const Outcome& o : outcomes) {
    r.variant_first += o.variant_first;
    r.within_6_months += o.within_6;
    r.whole_month_coverage += o.printed_covers;
    r.date_set_coverage += o.exact_covers;
    scored += o.scored;
    covered += o.score_covers;
    originals += static_cast<double>(o.originals);
    right_originals += static_cast<double>(o.right_originals);
    laters += static_cast<double>(o.laters);
    right_laters += static_cast<double>(o.right_laters);
    uncertain += static_cast<double>(o.uncertain);
    windows.push_back(o.window);
    for (const auto& [p, truth] : o.features) {
      features += 1;
      r.brier += (p - truth) * (p - truth);
      ReliabilityRow& row = r.reliability[std::min<std::size_t>(9, static_cast<std::size_t>(p * 10))];
      ++row.n;
      row.stated += p;
      row.came_true += truth;
    }
  }
  for (double* x : {&r.variant_first, &r.within_6_months, &r.whole_month_coverage, &r.date_set_coverage}) *x = ratio(*x, n);
  for (ReliabilityRow& row : r.reliability) {
    row.stated = ratio(row.stated, static_cast<double>(row.n));
    row.came_true = ratio(row.came_true, static_cast<double>(row.n));
  }
  r.score_interval_coverage = ratio(covered, scored);
  r.precision_original = ratio(right_originals, originals);
  r.precision_later = ratio(right_laters, laters);
  r.uncertain_share = ratio(uncertain, features);
  r.brier = ratio(r.brier, features);
  if (!windows.empty()) {
    std::nth_element(windows.begin(), windows.begin() + static_cast<std::ptrdiff_t>(windows.size() / 2), windows.end());
    r.median_window_months = windows[windows.size() / 2];
  }
  return r;
}

}  // namespace

TrialResult run_world(const Tables& tables, const World& world, std::size_t n, std::uint64_t seed, double coverage, unsigned workers) {
  std::vector<Outcome> outcomes(n);
  in_parallel(n, [&](std::size_t i) { outcomes[i] = assess_one(tables, world, seed_of(seed, i), coverage); }, workers);
  return sum_up(outcomes);
}

Trial run_trial(const Tables& tables, std::size_t n, std::uint64_t seed, double coverage) {
  Trial trial{tables.family, n, seed, {}};
  for (const NamedWorld& named : worlds) trial.in_world.push_back(run_world(tables, named.world, n, seed, coverage));
  return trial;
}

namespace {

/// Reveals the vehicle's notes in the order that `choose` picks; how many until the window is `months` or less.
template <class Choose>
int checks_needed(const Tables& t, const Evidence& all, int months, Choose choose) {
  Evidence e;
  std::vector<const Seen*> left;
  for (const Seen& s : all.seen) left.push_back(&s);
  while (window_of(t, e) > months && !left.empty()) {
    const auto at = left.begin() + static_cast<std::ptrdiff_t>(choose(e, left));
    e.seen.push_back(**at);
    left.erase(at);
  }
  return static_cast<int>(e.seen.size());
}

}  // namespace

Walk run_walk(const Tables& t, std::size_t n, std::uint64_t seed, int months) {
  Walk walk;
  for (; walk.n < n && walk.simulated < 4 * n; ++walk.simulated) {
    Random random(seed_of(seed, walk.simulated));
    const SimulatedVehicle v = simulate_vehicle(t, right_world, 1.0, random);
    if (window_of(t, v.evidence) > months) continue;
    ++walk.n;
    walk.by_next += checks_needed(t, v.evidence, months, [&](const Evidence& e, const std::vector<const Seen*>& left) {
      std::size_t best = 0;
      double best_bits = -1;
      for (const Outlook& o : outlooks(t, e, infer(t, e), {})) {
        const auto at = std::find_if(left.begin(), left.end(), [&](const Seen* s) { return s->feature == o.feature; });
        if (at != left.end() && o.build_bits > best_bits) best_bits = o.build_bits, best = static_cast<std::size_t>(at - left.begin());
      }
      return best;
    });
    walk.in_walk_order += checks_needed(t, v.evidence, months, [&](const Evidence&, const std::vector<const Seen*>& left) {
      const auto first = std::min_element(left.begin(), left.end(), [&](const Seen* a, const Seen* b) {
        return std::pair(t.features[a->feature].place, a->feature) < std::pair(t.features[b->feature].place, b->feature);
      });
      return static_cast<std::size_t>(first - left.begin());
    });
    walk.at_random += checks_needed(t, v.evidence, months, [&](const Evidence&, const std::vector<const Seen*>& left) { return static_cast<std::size_t>(random.next() % left.size()); });
  }
  for (double* x : {&walk.by_next, &walk.in_walk_order, &walk.at_random}) *x = ratio(*x, static_cast<double>(walk.n));
  return walk;
}

}  // namespace exworks
