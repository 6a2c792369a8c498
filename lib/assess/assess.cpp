#include <algorithm>

#include "assess/assessment.hpp"
#include "assess/readings.hpp"
#include "engine/infer/fit.hpp"

namespace exworks {

namespace {

std::vector<DocumentVerdict> judge_documents(const std::vector<DocumentLikelihood>& documents, const std::vector<double>& build) {
  std::vector<DocumentVerdict> out;
  for (const DocumentLikelihood& d : documents) {
    double p = 0;
    for (std::size_t b = 0; b < build.size(); ++b) {
      if (build[b] > 0) p += build[b] * d.right[b] / (d.right[b] + d.wrong);
    }
    out.push_back({d, p});
  }
  return out;
}

std::vector<FeatureVerdict> judge_features(const VerdictInputs& inputs) {
  std::vector<FeatureVerdict> out;
  for (const FeatureFinding& f : inputs.findings) {
    if (!inputs.tables.features[f.feature].of_number) out.push_back(judge_feature(inputs, f));
  }
  std::sort(out.begin(), out.end(), [](const FeatureVerdict& a, const FeatureVerdict& b) { return a.finding.feature < b.finding.feature; });
  return out;
}

Score judge_score(const Tables& t, const Posterior& posterior, const std::vector<FeatureFinding>& findings) {
  Score score = originality_score(t, posterior, findings);
  // The mean of a skewed distribution may lie outside its central 90 %; the interval shown holds it.
  score.low = std::min(score.low, score.value);
  score.high = std::max(score.high, score.value);
  return score;
}

Fit judge_fit(const Tables& t, const Posterior& posterior, const Evidence& evidence, const Settings& settings) {
  if (posterior.units.empty()) return {FitKind::nothing_observed, 1};
  if (posterior.impossible) return {FitKind::impossible, 0};
  if (settings.fit_draws <= 0) return {FitKind::not_computed, 1};
  const double p = fit_check(t, posterior, evidence, settings.seed, settings.fit_draws);
  return {p < settings.contradictory_below ? FitKind::contradictory : p < settings.unusual_below ? FitKind::unusual : FitKind::usual, p};
}

/// Those that are always said, and those of the features that were looked at.
std::vector<std::size_t> cautions_for(const Tables& t, const Inspection& in) {
  const auto& cautions = t.catalogue.cautions;
  std::vector<bool> wanted(cautions.size(), false);
  for (std::size_t c = 0; c < wanted.size(); ++c) wanted[c] = cautions[c].always;
  for (const Observation& o : in.observations) {
    const auto at = t.feature_index.find(o.feature);
    if (at == t.feature_index.end()) continue;
    for (std::size_t c : t.features[at->second].cautions) wanted[c] = true;
  }
  std::vector<std::size_t> out;
  for (std::size_t c = 0; c < wanted.size(); ++c) {
    if (wanted[c]) out.push_back(c);
  }
  return out;
}

std::vector<Remark> remarks_on(const Tables& t, const Inspection& in, const Evidence& e, bool papers) {
  std::vector<Remark> out;
  if (e.seen.empty() && !e.identity && !papers) out.push_back({RemarkKind::nothing_observed, {}});
  if (t.invented) out.push_back({RemarkKind::invented_family, {}});
  for (std::size_t d = 0; d < in.documents.size(); ++d) {
    if (date_weighed(in.documents[d])) continue;
    out.push_back({in.documents[d].date ? RemarkKind::document_without_build : RemarkKind::document_without_date, d});
  }
  return out;
}

std::vector<std::size_t> observations_in(const Inspection& in, LookState state) {
  std::vector<std::size_t> out;
  for (std::size_t o = 0; o < in.observations.size(); ++o) {
    if (in.observations[o].state == state) out.push_back(o);
  }
  return out;
}

Assessment judge(const Tables& t, const Inspection& in, const Settings& settings, const Evidence& e, const std::vector<DocumentLikelihood>& documents) {
  const Posterior posterior = infer(t, e);
  const std::vector<FeatureFinding> findings = feature_findings(e, posterior);
  const std::vector<AssemblyFinding> assemblies = assembly_findings(t, posterior);
  Assessment a;
  static_cast<Marginals&>(a) = marginals(t, posterior.build, settings.level);
  a.settings = settings;
  a.inspected = e.inspected;
  a.log_evidence = posterior.log_evidence;
  a.conversions = conversion_findings(t, e, posterior);
  a.alteration = posterior.level;
  for (std::size_t c = 0; c < in.codes.size(); ++c) a.codes.push_back(judge_code(in.codes, c, {a.date.from, a.date.to}, e.inspected));
  const VerdictInputs inputs{t, in, e, posterior, findings, assemblies, a.codes, settings};
  a.features = judge_features(inputs);
  for (const NumberRead& n : e.numbers) a.numbers.push_back(judge_number(inputs, n));
  a.score = judge_score(t, posterior, findings);
  a.missing = observations_in(in, LookState::missing);
  a.cannot_tell = observations_in(in, LookState::cannot_tell);
  a.claims = judge_claims(t, in, posterior.build, prior_of(t, e.country), settings);
  a.documents = judge_documents(documents, posterior.build);
  if (settings.readings) a.readings = judge_readings(t, in, e, posterior, a.claims, settings);
  if (settings.hinges) {
    const Hinges hinges = find_hinges(t, posterior, findings, a.variants.front(), a.features, settings);
    a.hinges_on = hinges.build;
    for (std::size_t f = 0; f < a.features.size(); ++f) a.features[f].hinges_on = hinges.features[f];
  }
  a.fit = judge_fit(t, posterior, e, settings);
  a.cautions = cautions_for(t, in);
  a.remarks = remarks_on(t, in, e, !documents.empty());
  return a;
}

}  // namespace

std::optional<Assessment> assess(const Tables& tables, const Inspection& inspection, const Settings& settings, const Given& given, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Evidence evidence = bind(tables, inspection, diagnostics);
  if (diagnostics.error_count() > errors) return std::nullopt;
  evidence.given = given;
  const std::vector<DocumentLikelihood> documents = document_likelihoods(tables, inspection);
  evidence.document_weight = document_weights(documents, tables.builds());
  return judge(tables, inspection, settings, evidence, documents);
}

}  // namespace exworks
