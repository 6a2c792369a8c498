#include "assess/readings.hpp"

#include <algorithm>

#include "engine/infer/leave_out.hpp"

namespace exworks {

namespace {

Given both(Given given, const Given& more) {
  if (!more.variants.empty()) given.variants = more.variants;
  if (!more.markets.empty()) given.markets = more.markets;
  if (!more.plants.empty()) given.plants = more.plants;
  if (more.built) given.built = more.built;
  if (more.own_number) given.own_number = more.own_number;
  return given;
}

/// Judges the same evidence under a condition.
Reading read_given(const Tables& t, const Inspection& in, Evidence evidence, const Given& given, const Settings& settings) {
  Reading out;
  evidence.given = both(evidence.given, given);
  const Posterior posterior = infer(t, evidence);
  if (posterior.impossible) {
    out.possible = false;
    return out;
  }
  const Marginals build = marginals(t, posterior.build, settings.level);
  out.leading = build.routes.front();
  out.date = build.date;
  const auto assemblies = assembly_findings(t, posterior);
  const auto findings = feature_findings(evidence, posterior);
  const std::vector<CodeVerdict> codes;  // the very parts are no matter of readings
  const VerdictInputs inputs{t, in, evidence, posterior, findings, assemblies, codes, settings};
  for (const FeatureFinding& finding : findings) {
    if (t.features[finding.feature].of_number) continue;
    const FeatureVerdict f = judge_feature(inputs, finding);
    out.features.push_back({finding.feature, f.noted, f.verdict, f.p});
  }
  return out;
}

/// Does everything else speak against the identity number as strongly as the settings ask, or so that it can't be told whether it is the
/// vehicle's own? One number and a life of many changes explain nearly anything: then the reader must see both.
/// `before`: P(it is not its own) before looking.
bool contradicted(double before, double p_own, const Settings& settings) {
  if (p_own >= 1) return false;
  if (p_own < settings.original_from) return true;
  const double odds = p_own / (1 - p_own), prior = (1 - before) / before;
  return odds / prior < 1 / settings.contradiction_from;
}

/// An observation that an answer hangs on, and how much of the answer's odds goes with it.
struct Hinge {
  FeatureIndex feature;
  double loss;
};

std::vector<std::size_t> weightiest(std::vector<Hinge> hinges) {
  std::stable_sort(hinges.begin(), hinges.end(), [](const Hinge& a, const Hinge& b) { return a.loss > b.loss; });
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < hinges.size() && i < 2; ++i) out.push_back(hinges[i].feature);
  return out;
}

}  // namespace

std::vector<Reading> judge_readings(const Tables& t, const Inspection& in, const Evidence& evidence, const Posterior& posterior, const std::vector<ClaimVerdict>& claims, const Settings& settings) {
  std::vector<Reading> out;
  const auto add = [&](Condition condition, std::size_t claim, const Given& given, double p) {
    Reading reading = read_given(t, in, evidence, given, settings);
    reading.condition = condition;
    reading.claim = claim;
    reading.p = p;
    out.push_back(std::move(reading));
  };
  if (const auto own = posterior.own_number; own && !evidence.given.own_number && contradicted(evidence.numbers[*evidence.identity].not_own, *own, settings)) {
    Given given;
    given.own_number = true;
    add(Condition::own_number, 0, given, *own);
    given.own_number = false;
    add(Condition::other_number, 0, given, 1 - *own);
  }
  for (std::size_t i = 0; i < claims.size(); ++i) add(Condition::claim, i, claims[i].given, claims[i].p);
  return out;
}

Hinges find_hinges(const Tables& t, const Posterior& posterior, const std::vector<FeatureFinding>& findings, const Odds& leader,
                   const std::vector<FeatureVerdict>& verdicts, const Settings& settings) {
  Hinges out;
  out.features.resize(verdicts.size());
  if (findings.size() < 2) return out;
  const std::vector<LeftOut> without = leave_each_out(t, posterior, findings);
  std::vector<Hinge> of_build;
  std::vector<std::vector<Hinge>> of_verdict(verdicts.size());
  for (std::size_t f = 0; f < findings.size(); ++f) {
    const FeatureIndex feature = findings[f].feature;
    const LeftOut& rest = without[f];
    const auto lead = std::max_element(rest.variants.begin(), rest.variants.end()) - rest.variants.begin();
    if (static_cast<std::size_t>(lead) != leader.index) of_build.push_back({feature, leader.p - rest.variants[leader.index]});
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
      const FeatureVerdict& verdict = verdicts[i];
      if (verdict.verdict == VerdictKind::uncertain || verdict.finding.feature == feature) continue;
      const auto at = std::find_if(findings.begin(), findings.end(), [&](const FeatureFinding& x) { return x.feature == verdict.finding.feature; });
      const auto g = static_cast<std::size_t>(at - findings.begin());
      const bool original = verdict.verdict == VerdictKind::original;
      const double now = (original ? rest.type[g] : rest.later[g]) / (rest.type[g] + rest.later[g]);
      if (now < (original ? settings.original_from : 1 - settings.later_to)) of_verdict[i].push_back({feature, 1 - now});
    }
  }
  out.build = weightiest(std::move(of_build));
  for (std::size_t i = 0; i < verdicts.size(); ++i) out.features[i] = weightiest(std::move(of_verdict[i]));
  return out;
}

}  // namespace exworks
