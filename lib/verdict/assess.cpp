#include <algorithm>

#include "base/text.hpp"
#include "infer/fit.hpp"
#include "verdict/feature_verdict.hpp"
#include "verdict/marginals.hpp"
#include "verdict/number_verdict.hpp"
#include "verdict/scales.hpp"

namespace exworks {

namespace {

std::string name_of(const Inspection& inspection) { return inspection.vehicle.empty() ? inspection.file : inspection.vehicle; }

class Assessor {
 public:
  Assessor(const Tables& t, const Inspection& inspection, const Settings& settings, const Evidence& evidence)
      : t_(t), in_(inspection), settings_(settings), e_(evidence), p_(infer(t, evidence)) {}

  Assessment run() {
    a_.settings = settings_;
    a_.vehicle = name_of(in_);
    a_.reference = in_.reference;
    a_.inspected = e_.inspected;
    a_.log_evidence = p_.log_evidence;
    fill_marginals(t_, p_.build, settings_.level, a_);
    const std::vector<FeatureFinding> findings = feature_findings(e_, p_);
    const std::vector<AssemblyFinding> assemblies = assembly_findings(t_, p_);
    const Judge judge{t_, in_, e_, p_, assemblies, a_, settings_};
    std::vector<FeatureVerdict> verdicts;
    for (const FeatureFinding& f : findings) {
      if (!t_.features[f.feature].of_number) verdicts.push_back(judge_feature(judge, f));
    }
    std::sort(verdicts.begin(), verdicts.end(), [](const FeatureVerdict& a, const FeatureVerdict& b) { return a.finding.feature < b.finding.feature; });
    for (const NumberRead& n : e_.numbers) a_.numbers.push_back(judge_number(judge, n));
    a_.features = std::move(verdicts);
    a_.score = originality_score(t_, p_, findings);
    states();
    claims();
    fit();
    cautions();
    remarks();
    return std::move(a_);
  }

 private:
  void states() {
    for (const Observation& o : in_.observations) {
      if (o.state == "missing") a_.missing.push_back({o.feature, o.state, o.note});
      if (o.state == "cannot-tell") a_.cannot_tell.push_back({o.feature, o.state, o.note});
    }
  }

  void claims() {
    for (const Claim& c : in_.claims) {
      std::vector<std::string> words;
      if (c.built) words.push_back("built " + to_words(*c.built));
      for (const std::string* w : {&c.generation, &c.variant, &c.body, &c.market, &c.plant}) {
        if (!w->empty()) words.push_back(*w);
      }
      if (words.empty()) continue;
      double p = 0;
      for (const RouteInfo& r : t_.routes) {
        const VariantInfo& v = t_.variants[r.variant];
        const auto fits = [](const std::string& claimed, const std::string& id) { return claimed.empty() || claimed == id; };
        if (!fits(c.generation, t_.generations[v.generation].id) || !fits(c.variant, v.id) || !fits(c.body, t_.bodies[v.body].id) ||
            !fits(c.market, t_.markets[r.market].id) || !fits(c.plant, t_.plants[r.plant].id)) {
          continue;
        }
        for (std::size_t i = 0; i < r.builds(); ++i) {
          const Month m = r.first + static_cast<int>(i);
          if (!c.built || c.built->open || (m >= c.built->first && m <= c.built->last)) p += p_.build[r.first_build + i];
        }
      }
      a_.claims.push_back({join_and(words), c.by, p});
    }
  }

  void fit() {
    if (p_.units.empty()) {
      a_.fit_note = "Nothing was observed, so there is nothing to fit.";
      return;
    }
    if (p_.impossible) {
      a_.fit_p = 0;
      a_.fit_note = "Nothing in this pack allows what was given.";
      return;
    }
    if (settings_.fit_draws <= 0) {
      a_.fit_note = "Not computed.";
      return;
    }
    a_.fit_p = fit_check(t_, p_, e_, settings_.seed, settings_.fit_draws);
    const std::string share = percent(std::max(a_.fit_p, 1.0 / settings_.fit_draws));
    if (a_.fit_p < 0.01) a_.fit_note = "Hardly any vehicle simulated from this pack looks as unlikely as this one: the observations contradict each other, or it is of another family.";
    else if (a_.fit_p < 0.05) a_.fit_note = "Only " + share + " of the vehicles simulated from this pack look as unlikely as this one: an unusual vehicle, or slips in what was noted.";
    else a_.fit_note = share + " of the vehicles simulated from this pack look at least as unlikely as this one.";
  }

  void cautions() {
    std::vector<bool> wanted(t_.cautions.size(), false);
    for (std::size_t c = 0; c < wanted.size(); ++c) wanted[c] = t_.cautions[c].always;
    for (const Observation& o : in_.observations) {
      const auto at = t_.feature_index.find(o.feature);
      if (at == t_.feature_index.end()) continue;
      for (std::size_t c : t_.features[at->second].cautions) wanted[c] = true;
    }
    for (std::size_t c = 0; c < wanted.size(); ++c) {
      if (wanted[c]) a_.cautions.push_back(c);
    }
  }

  void remarks() {
    if (e_.seen.empty() && !e_.identity) a_.remarks.push_back("Nothing was observed: the odds below are those before looking, by production alone.");
    if (t_.invented) a_.remarks.push_back("The family of this pack is invented; it serves for practice.");
    for (const Document& d : in_.documents) {
      std::string words = "Document recorded: " + d.kind;
      if (d.date) words += ", dated " + to_words(*d.date);
      if (d.built) words += ", says built " + to_words(*d.built);
      if (!d.note.empty()) words += " (" + d.note + ")";
      a_.remarks.push_back(words + ". It is shown, not weighed.");
    }
  }

  const Tables& t_;
  const Inspection& in_;
  const Settings& settings_;
  const Evidence& e_;
  Posterior p_;
  Assessment a_;
};

}  // namespace

std::optional<Assessment> assess(const Tables& tables, const Inspection& inspection, const Settings& settings, const Given& given, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Evidence evidence = bind(tables, inspection, diagnostics);
  if (diagnostics.error_count() > errors) return std::nullopt;
  evidence.given = given;
  return Assessor(tables, inspection, settings, evidence).run();
}

}  // namespace exworks
