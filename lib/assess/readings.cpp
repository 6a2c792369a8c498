#include "assess/readings.hpp"

#include <algorithm>

#include "engine/infer/leave_out.hpp"
#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"

namespace exworks {

namespace {

/// The verdicts of some evidence, without numbers, fit and the rest.
struct Quick {
  Posterior posterior;
  Marginals build;
  std::vector<FeatureVerdict> features;
};

Quick judge_quickly(const Tables& t, const Inspection& in, const Evidence& e, const Settings& settings) {
  Quick q;
  q.posterior = infer(t, e);
  q.build = marginals(t, q.posterior.build, settings.level);
  const auto assemblies = assembly_findings(t, q.posterior);
  const auto findings = feature_findings(e, q.posterior);
  const std::vector<CodeVerdict> codes;  // the very parts are no matter of readings
  const VerdictInputs inputs{t, in, e, q.posterior, findings, assemblies, codes, settings};
  for (const FeatureFinding& f : findings) {
    if (!t.features[f.feature].of_number) q.features.push_back(judge_feature(inputs, f));
  }
  return q;
}

/// An observation that an answer hangs on, and how much of the answer's odds goes with it.
struct Hinge {
  std::size_t feature;
  double loss;
};

std::vector<std::size_t> weightiest(std::vector<Hinge> hinges) {
  std::stable_sort(hinges.begin(), hinges.end(), [](const Hinge& a, const Hinge& b) { return a.loss > b.loss; });
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < hinges.size() && i < 2; ++i) out.push_back(hinges[i].feature);
  return out;
}

}  // namespace

Reading read_given(const Tables& t, const Inspection& in, const Evidence& evidence, const Given& given, const Settings& settings, std::string words, double p) {
  Reading out;
  out.given = std::move(words);
  out.p = p;
  Evidence e = evidence;
  e.given = given;
  const Quick q = judge_quickly(t, in, e, settings);
  if (q.posterior.impossible) {
    out.possible = false;
    return out;
  }
  out.leading = q.build.routes.front();
  out.date = q.build.date;
  for (const FeatureVerdict& f : q.features) out.features.push_back({f.finding.feature, f.value, f.verdict, f.finding.p_type});
  return out;
}

void fill_hinges(const Tables& t, const Evidence& evidence, const Posterior& posterior, const std::vector<FeatureFinding>& findings, Assessment& a) {
  if (findings.size() < 2) return;
  const std::size_t leader = a.variants.front().index;
  const std::vector<LeftOut> without = leave_each_out(t, evidence, posterior, findings);
  std::vector<Hinge> of_build;
  std::vector<std::vector<Hinge>> of_verdict(a.features.size());
  for (std::size_t f = 0; f < findings.size(); ++f) {
    const std::size_t feature = findings[f].feature;
    const LeftOut& rest = without[f];
    const auto lead = std::max_element(rest.variants.begin(), rest.variants.end()) - rest.variants.begin();
    if (static_cast<std::size_t>(lead) != leader) of_build.push_back({feature, a.variants.front().p - rest.variants[leader]});
    for (std::size_t i = 0; i < a.features.size(); ++i) {
      const FeatureVerdict& verdict = a.features[i];
      if (verdict.verdict == VerdictKind::uncertain || verdict.finding.feature == feature) continue;
      const auto at = std::find_if(findings.begin(), findings.end(), [&](const FeatureFinding& x) { return x.feature == verdict.finding.feature; });
      const auto g = static_cast<std::size_t>(at - findings.begin());
      const bool original = verdict.verdict == VerdictKind::original;
      const double now = original ? rest.type[g] : rest.later[g];
      if (now < (original ? a.settings.original_from : 1 - a.settings.later_to)) of_verdict[i].push_back({feature, 1 - now});
    }
  }
  a.hinges_on = weightiest(std::move(of_build));
  for (std::size_t i = 0; i < a.features.size(); ++i) a.features[i].hinges_on = weightiest(std::move(of_verdict[i]));
}

}  // namespace exworks
