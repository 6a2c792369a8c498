#include "verdict/readings.hpp"

#include <algorithm>
#include <cmath>

#include "verdict/feature_verdict.hpp"
#include "verdict/marginals.hpp"

namespace exworks {

namespace {

/// The verdicts of some evidence, without numbers, fit and the rest.
struct Quick {
  Posterior posterior;
  Assessment marginals;
  std::vector<FeatureVerdict> features;
};

Quick judge_quickly(const Tables& t, const Inspection& in, const Evidence& e, const Settings& settings) {
  Quick q;
  q.posterior = infer(t, e);
  fill_marginals(t, q.posterior.build, settings.level, q.marginals);
  const auto assemblies = assembly_findings(t, q.posterior);
  const Judge judge{t, in, e, q.posterior, assemblies, q.marginals, settings};
  for (const FeatureFinding& f : feature_findings(e, q.posterior)) {
    if (!t.features[f.feature].of_number) q.features.push_back(judge_feature(judge, f));
  }
  return q;
}

/// An observation that an answer hangs on, and how much of the answer's odds goes with it.
struct Hinge {
  std::string feature;
  double loss;
};

std::vector<std::string> weightiest(std::vector<Hinge> hinges) {
  std::stable_sort(hinges.begin(), hinges.end(), [](const Hinge& a, const Hinge& b) { return a.loss > b.loss; });
  std::vector<std::string> out;
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
  out.leading = q.marginals.routes.front();
  out.date = q.marginals.date;
  for (const FeatureVerdict& f : q.features) out.features.push_back({f.id, f.name, f.observed, f.verdict, f.finding.p_type});
  return out;
}

void fill_hinges(const Tables& t, const Inspection& in, const Evidence& evidence, const Settings& settings, Assessment& a) {
  if (evidence.seen.size() < 2) return;
  const std::size_t leader = a.variants.front().index;
  std::vector<Hinge> of_build;
  std::vector<std::vector<Hinge>> of_verdict(a.features.size());
  for (std::size_t left_out = 0; left_out < evidence.seen.size(); ++left_out) {
    Evidence e = evidence;
    e.seen.erase(e.seen.begin() + static_cast<std::ptrdiff_t>(left_out));
    const Quick q = judge_quickly(t, in, e, settings);
    const std::string& name = t.features[evidence.seen[left_out].feature].id;
    if (q.marginals.variants.front().index != leader) {
      const auto now = std::find_if(q.marginals.variants.begin(), q.marginals.variants.end(), [&](const Odds& o) { return o.index == leader; });
      of_build.push_back({name, a.variants.front().p - now->p});
    }
    for (std::size_t i = 0; i < a.features.size(); ++i) {
      if (a.features[i].verdict == VerdictKind::uncertain || a.features[i].id == name) continue;
      const auto now = std::find_if(q.features.begin(), q.features.end(), [&](const FeatureVerdict& f) { return f.id == a.features[i].id; });
      if (now != q.features.end() && now->verdict != a.features[i].verdict) {
        of_verdict[i].push_back({name, std::abs(now->finding.p_type - a.features[i].finding.p_type)});
      }
    }
  }
  a.hinges_on = weightiest(std::move(of_build));
  for (std::size_t i = 0; i < a.features.size(); ++i) a.features[i].hinges_on = weightiest(std::move(of_verdict[i]));
}

}  // namespace exworks
