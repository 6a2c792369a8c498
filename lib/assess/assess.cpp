#include <algorithm>

#include "base/text.hpp"
#include "engine/infer/documents.hpp"
#include "engine/infer/fit.hpp"
#include "engine/infer/given.hpp"
#include "assess/feature_verdict.hpp"
#include "assess/marginals.hpp"
#include "assess/number_verdict.hpp"
#include "assess/readings.hpp"
#include "words/evidence.hpp"
#include "words/scales.hpp"

namespace exworks {

namespace {

std::string name_of(const Inspection& inspection) { return inspection.vehicle.empty() ? inspection.file : inspection.vehicle; }

class Assessor {
 public:
  Assessor(const Tables& t, const Inspection& inspection, const Settings& settings, const Evidence& evidence, const std::vector<DocumentLikelihood>& documents)
      : t_(t), in_(inspection), settings_(settings), e_(evidence), documents_(documents), p_(infer(t, evidence)) {}

  Assessment run() {
    a_.settings = settings_;
    a_.vehicle = name_of(in_);
    a_.reference = in_.reference;
    a_.inspected = e_.inspected;
    a_.log_evidence = p_.log_evidence;
    static_cast<Marginals&>(a_) = marginals(t_, p_.build, settings_.level);
    const BuildWindow built{a_.date.from, a_.date.to};
    for (const DateCode& c : in_.codes) a_.codes.push_back(judge_code(c, built, e_.inspected.value_or(Month::of(2100, 1))));
    const std::vector<FeatureFinding> findings = feature_findings(e_, p_);
    const std::vector<AssemblyFinding> assemblies = assembly_findings(t_, p_);
    const VerdictInputs inputs{t_, in_, e_, p_, findings, assemblies, a_.codes, settings_};
    std::vector<FeatureVerdict> verdicts;
    for (const FeatureFinding& f : findings) {
      if (!t_.features[f.feature].of_number) verdicts.push_back(judge_feature(inputs, f));
    }
    std::sort(verdicts.begin(), verdicts.end(), [](const FeatureVerdict& a, const FeatureVerdict& b) { return a.finding.feature < b.finding.feature; });
    for (const NumberRead& n : e_.numbers) a_.numbers.push_back(judge_number(inputs, n));
    a_.features = std::move(verdicts);
    a_.score = originality_score(t_, p_, findings);
    // The mean of a skewed distribution may lie outside its central 90 %; the interval shown holds it.
    a_.score.low = std::min(a_.score.low, a_.score.value);
    a_.score.high = std::max(a_.score.high, a_.score.value);
    states();
    claims();
    documents();
    readings();
    if (settings_.hinges) fill_hinges(t_, e_, p_, findings, a_);
    fit();
    cautions();
    remarks();
    return std::move(a_);
  }

 private:
  void states() {
    for (const Observation& o : in_.observations) {
      if (o.state == LookState::missing) a_.missing.push_back({o.feature, o.note});
      if (o.state == LookState::cannot_tell) a_.cannot_tell.push_back({o.feature, o.note});
    }
  }

  template <class Items>
  static void add_name(std::vector<std::string>& words, const Items& items, const std::string& id) {
    std::vector<std::string> named;
    for (const auto& item : items) {
      if (glob_match(id, item.id)) named.push_back(item.name);
    }
    if (!named.empty()) words.push_back(join_or(named));
  }

  void claims() {
    for (const Claim& c : in_.claims) {
      std::vector<std::string> words;
      if (c.built) words.push_back("built " + to_words(*c.built));
      add_name(words, t_.axes.generations, c.generation);
      add_name(words, t_.axes.variants, c.variant);
      add_name(words, t_.axes.bodies, c.body);
      add_name(words, t_.axes.markets, c.market);
      add_name(words, t_.axes.plants, c.plant);
      if (words.empty()) continue;
      claimed_.push_back(as_given(c));
      a_.claims.push_back({join_and(words), c.by, odds_of(claimed_.back())});
    }
  }

  Given as_given(const Claim& c) const {
    std::vector<std::string> conditions;
    for (const auto& [key, value] : {std::pair<std::string, const std::string&>{"generation", c.generation}, {"variant", c.variant}, {"body", c.body}, {"market", c.market}, {"plant", c.plant}}) {
      if (!value.empty()) conditions.push_back(key + "=" + value);
    }
    Diagnostics none;  // the names were checked when the inspection was bound
    Given given = parse_given(t_, conditions, c.place, none);
    given.built = c.built;
    return given;
  }

  double odds_of(const Given& given) const {
    const auto meets = [](const std::vector<bool>& wanted, std::size_t i) { return wanted.empty() || wanted[i]; };
    const bool any_date = !given.built || given.built->open;
    double p = 0;
    for (const RouteInfo& r : t_.routes) {
      if (!meets(given.variants, r.variant) || !meets(given.markets, r.market) || !meets(given.plants, r.plant)) continue;
      for (std::size_t i = 0; i < r.builds(); ++i) {
        const Month m = r.first + static_cast<int>(i);
        if (any_date || (m >= given.built->first && m <= given.built->last)) p += p_.build[r.first_build + i];
      }
    }
    return p;
  }

  void documents() {
    for (const DocumentLikelihood& d : documents_) {
      double p = 0;
      for (std::size_t b = 0; b < p_.build.size(); ++b) {
        if (p_.build[b] > 0) p += p_.build[b] * d.right[b] / (d.right[b] + d.wrong);
      }
      a_.documents.push_back({paper_words(in_, d), d.reliability, p});
    }
  }

  /// A claim is a reading of its own; a number with a likelihood ratio over 100 against its being the vehicle's own gets two.
  void readings() {
    if (!settings_.readings) return;
    const auto add = [&](const Given& given, std::string words, double p) {
      Given both = e_.given;
      if (!given.variants.empty()) both.variants = given.variants;
      if (!given.markets.empty()) both.markets = given.markets;
      if (!given.plants.empty()) both.plants = given.plants;
      if (given.built) both.built = given.built;
      if (given.own_number) both.own_number = given.own_number;
      a_.readings.push_back(read_given(t_, in_, e_, both, settings_, std::move(words), p));
    };
    if (p_.own_number && !e_.given.own_number && *p_.own_number < 1) {
      const double odds = *p_.own_number / (1 - *p_.own_number);
      const double prior = (1 - t_.rates.number_error) / t_.rates.number_error;
      if (odds / prior < 0.01) {
        Given given;
        given.own_number = true;
        add(given, "the number is the vehicle's own", *p_.own_number);
        given.own_number = false;
        add(given, "the number is not the vehicle's own", 1 - *p_.own_number);
      }
    }
    for (std::size_t i = 0; i < claimed_.size(); ++i) add(claimed_[i], "as claimed: " + a_.claims[i].what, a_.claims[i].p);
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
    std::vector<bool> wanted(t_.catalogue.cautions.size(), false);
    for (std::size_t c = 0; c < wanted.size(); ++c) wanted[c] = t_.catalogue.cautions[c].always;
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
    if (e_.seen.empty() && !e_.identity && documents_.empty()) a_.remarks.push_back("Nothing was observed: the odds below are those before looking, by production alone.");
    if (t_.invented) a_.remarks.push_back("The family of this pack is invented; it serves for practice.");
    for (const Document& d : in_.documents) {
      if (date_weighed(d)) continue;
      a_.remarks.push_back("Document recorded: " + word(d.kind) + (d.note.empty() ? "" : " (" + d.note + ")") + (d.date ? ". It states no build date (built), so it is shown, not weighed." : ". It has no date, so it is shown, not weighed."));
    }
  }

  const Tables& t_;
  const Inspection& in_;
  const Settings& settings_;
  const Evidence& e_;
  const std::vector<DocumentLikelihood>& documents_;
  Posterior p_;
  Assessment a_;
  std::vector<Given> claimed_;  // [claim of a_.claims]
};

}  // namespace

std::optional<Assessment> assess(const Tables& tables, const Inspection& inspection, const Settings& settings, const Given& given, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Evidence evidence = bind(tables, inspection, diagnostics);
  if (diagnostics.error_count() > errors) return std::nullopt;
  evidence.given = given;
  const std::vector<DocumentLikelihood> documents = document_likelihoods(tables, inspection);
  evidence.document_weight = document_weights(documents, tables.builds());
  return Assessor(tables, inspection, settings, evidence, documents).run();
}

}  // namespace exworks
