#include "oracle_compare.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace exworks::test::oracle {

Engine run_engine(const Tables& tables, const std::string& inspection_xml, const std::vector<std::string>& given) {
  Engine out;
  Diagnostics d;
  const Inspection inspection = inspection_from_text(inspection_xml);
  out.evidence = bind(tables, inspection, d);
  out.evidence.document_weight = document_weights(document_likelihoods(tables, inspection), tables.prior.size());
  out.evidence.given = parse_given(tables, given, {}, d);
  INFO(messages(d));
  REQUIRE_FALSE(d.has_errors());
  out.posterior = infer(tables, out.evidence);
  out.features = feature_findings(out.evidence, out.posterior);
  out.assemblies = assembly_findings(tables, out.posterior);
  out.score = originality_score(tables, out.posterior, out.features);
  return out;
}

namespace {

constexpr double tolerance = 1e-9;

/// The engine's figures for one build are at this index; axes stand in the order of the pack.
std::vector<std::size_t> builds_of_engine(const Tables& tables, const Model& model) {
  std::vector<std::size_t> out;
  for (const Build& b : model.builds()) {
    const Month month = Month::of(1950, 1) + b.month;
    for (const RouteInfo& route : tables.routes) {
      const bool same = route.variant == b.variant && route.market == b.market && route.plant == b.plant;
      if (same && month >= route.first && month <= route.last)
        out.push_back(route.first_build + static_cast<std::size_t>(month - route.first));
    }
  }
  return out;
}

std::size_t place_in(const std::vector<std::string>& names, const std::string& name) {
  const auto at = std::find(names.begin(), names.end(), name);
  INFO(name);
  REQUIRE(at != names.end());
  return static_cast<std::size_t>(at - names.begin());
}

/// The place of an engine's feature among those of the oracle, which lists the serials of numbers last.
std::size_t feature_in(const Case& c, const Model& model, const FeatureInfo& feature) {
  if (!feature.of_number) return place_in(c.names.features, feature.id);
  const auto at = std::find_if(model.features().begin(), model.features().end(),
                               [&](const Feature& f) { return f.of_number == feature.of_number; });
  return static_cast<std::size_t>(at - model.features().begin());
}

void compare_builds(const Model& model, const Answer& answer, const Engine& engine, const std::vector<std::size_t>& at,
                    Differences& out) {
  out.check("the number of builds", engine.posterior.build.size() == answer.build.size() && at.size() == answer.build.size());
  for (std::size_t b = 0; b < at.size(); ++b) {
    const Build& build = model.builds()[b];
    out.compare("P(build v" + std::to_string(build.variant) + " month " + std::to_string(build.month) + " m" +
                    std::to_string(build.market) + " p" + std::to_string(build.plant) + ")",
                engine.posterior.build[at[b]], answer.build[b]);
  }
}

void compare_own(const Case& c, const Answer& answer, const Engine& engine, Differences& out) {
  const bool read = !c.visit.numbers.empty() && !c.pack.numbers[c.visit.numbers.front().number].assembly;
  out.check("there is an identity number", engine.posterior.own_number.has_value() == read);
  if (engine.posterior.own_number && read) out.compare("P(number is its own)", *engine.posterior.own_number, answer.p_own);
}

/// What papers weigh is said up to a factor (they "multiply the odds"), and under a condition P(o) could mean two things.
void compare_evidence(const Case& c, const Answer& answer, const Engine& engine, Differences& out) {
  if (c.visit.papers.empty() && c.visit.claims.empty() && given_words(c.visit).empty())
    out.compare("log P(o)", engine.posterior.log_evidence, std::log(answer.evidence));
}

void compare_looks(const Case& c, const Model& model, const Answer& answer, const Engine& engine, Differences& out) {
  const std::vector<Look>& looks = model.looks();
  out.check("the number of findings", engine.features.size() == looks.size());
  for (const FeatureFinding& finding : engine.features) {
    const std::string& id = c.tables.features[finding.feature].id;
    const std::size_t f = feature_in(c, model, c.tables.features[finding.feature]);
    const auto look = std::find_if(looks.begin(), looks.end(), [&](const Look& l) { return l.feature == f; });
    out.check("a look at " + id, look != looks.end());
    if (look == looks.end()) continue;
    const LookAnswer& a = answer.looks[static_cast<std::size_t>(look - looks.begin())];
    out.compare(id + " P(type as built)", finding.p_type, a.p_type);
    out.compare(id + " P(type as built) before the look", finding.p_before, a.type_before);
    out.compare(id + " log of the likelihood ratio", std::log(finding.likelihood_ratio), std::log(a.ratio));
    out.compare(id + " P(untouched)", finding.p_untouched, a.p_untouched);
    out.compare(id + " P(silent)", finding.p_silent, a.p_silent);
    out.compare(id + " P(type, spoken)", finding.p_type_spoken, a.p_type_spoken);
    out.compare(id + " P(later, spoken)", finding.p_later_spoken, 1 - a.p_silent - a.p_type_spoken);
    out.compare(id + " P(value there)", finding.there, a.there);
    out.compare(id + " works share", finding.works, a.works);
  }
}

void compare_assemblies(const Case& c, const Model& model, const Answer& answer, const Engine& engine, const std::vector<std::size_t>& at,
                        Differences& out) {
  std::vector<bool> found(c.pack.assemblies.size(), false);
  for (const AssemblyFinding& finding : engine.assemblies) {
    const std::string& id = c.tables.assemblies[finding.assembly].id;
    const auto known = std::find(c.names.assemblies.begin(), c.names.assemblies.end(), id);
    if (known == c.names.assemblies.end()) continue;  // the pack has more than the structs; nothing of it was looked at
    const std::size_t a = static_cast<std::size_t>(known - c.names.assemblies.begin());
    found[a] = true;
    out.compare(id + " P(replaced)", finding.p_replaced, answer.assemblies[a].p_replaced);
    Reals donor(finding.donor.size(), 0);
    for (std::size_t b = 0; b < at.size(); ++b) donor[at[b]] = answer.assemblies[a].donor[b];
    out.compare(id + " P(donor | replaced)", finding.donor, donor);
    Real outside = 0;
    for (const auto& [change, p] : finding.outside) {
      const std::string& name = c.tables.changes[change].id;
      out.compare(id + " P(" + name + " | replaced)", p, answer.assemblies[a].outside[place_in(c.names.outsides, name)]);
      outside += p;
    }
    Real due = 0;
    for (const Real p : answer.assemblies[a].outside) due += p;
    out.compare(id + " P(outside | replaced)", static_cast<double>(outside), due);
  }
  for (const Look& look : model.looks()) {
    const auto assembly = model.features()[look.feature].assembly;
    if (assembly) out.check("no finding for a" + std::to_string(*assembly), found[*assembly]);
  }
}

/// The engine stops at 99.9 % of the odds (score.hpp): its mean and the 5 % outside each end of the interval are as near.
void compare_score(const Model& model, const Answer& answer, const Score& score, Differences& out) {
  // Whether a feature counts hangs on one half; a tie is left to rounding.
  const auto tie = [](const LookAnswer& look) { return std::fabs(look.p_silent - 0.5L) < 1e-9L; };
  if (std::any_of(answer.looks.begin(), answer.looks.end(), tie)) return;
  const std::map<Real, Real> distribution = model.score(answer);
  out.check("there is a score", (score.weight > 0) == !distribution.empty());
  if (distribution.empty()) return;
  constexpr Real left_out = 0.001L + 1e-9L, nudge = 1e-9L;
  Real mean = 0, below_low = 0, to_low = 0, below_high = 0, to_high = 0;
  for (const auto& [value, p] : distribution) {
    mean += value * p;
    below_low += value < Real{score.low} - nudge ? p : 0;
    to_low += value < Real{score.low} + nudge ? p : 0;
    below_high += value < Real{score.high} - nudge ? p : 0;
    to_high += value < Real{score.high} + nudge ? p : 0;
  }
  out.check("originality score", std::fabs(Real{score.value} - mean) <= left_out);
  out.check("score's low end", below_low <= 0.05L + left_out && to_low >= 0.05L - left_out);
  out.check("score's high end", below_high <= 0.95L + left_out && to_high >= 0.95L - left_out);
}

void compare_odds(const std::string& what, const std::vector<Odds>& odds, const Reals& due, Differences& out) {
  Reals missing = due;
  for (const Odds& o : odds) {
    out.compare("P(" + what + std::to_string(o.index) + ")", o.p, due.at(o.index));
    missing[o.index] = 0;
  }
  out.check(what + ": a member with odds is not listed",
            std::all_of(missing.begin(), missing.end(), [](Real p) { return p <= 0; }));
  out.check(what + ": odds in order",
            std::is_sorted(odds.begin(), odds.end(), [](const Odds& a, const Odds& b) { return a.p > b.p; }));
}

/// Engine and oracle list papers and claims in the order of the inspection; a claim that weighs may stand among the papers.
void compare_papers(const Case& c, const Model& model, const Answer& answer, const Assessment& assessment, Differences& out) {
  std::vector<Paper> papers = model.papers();
  out.check("the number of papers", assessment.documents.size() == papers.size());
  if (assessment.documents.size() == papers.size()) {
    for (std::size_t i = 0; i < papers.size(); ++i)
      out.compare("P(paper " + std::to_string(i) + " is right)", assessment.documents[i].p_right,
                  model.paper_right(papers[i], answer.build));
  }
  out.check("the number of claims", assessment.claims.size() == c.visit.claims.size());
  for (std::size_t i = 0; i < std::min(assessment.claims.size(), c.visit.claims.size()); ++i)
    out.compare("P(claim " + std::to_string(i) + ")", assessment.claims[i].p,
                model.claim_odds(c.visit.claims[i], answer.build));
}

void compare_marginals(const Case& c, const Model& model, const Answer& answer, Differences& out) {
  Settings settings;
  settings.fit_draws = 0;
  settings.readings = settings.hinges = false;
  Diagnostics d;
  const Given given = parse_given(c.tables, given_words(c.visit), {}, d);
  const auto assessment = assess(c.tables, inspection_from_text(c.xml), settings, given, d);
  REQUIRE(assessment);
  compare_papers(c, model, answer, *assessment, out);
  compare_numbers(c, model, answer, *assessment, out);
  Reals generations(c.pack.generations, 0), variants(c.pack.variants.size(), 0), bodies(c.pack.bodies, 0),
      markets(c.pack.markets.size(), 0), plants(c.pack.plants.size(), 0), months(assessment->month_odds.size(), 0);
  for (std::size_t b = 0; b < model.builds().size(); ++b) {
    const Build& build = model.builds()[b];
    generations[c.pack.variants[build.variant].generation] += answer.build[b];
    variants[build.variant] += answer.build[b];
    bodies[c.pack.variants[build.variant].body] += answer.build[b];
    markets[build.market] += answer.build[b];
    plants[build.plant] += answer.build[b];
    months.at(static_cast<std::size_t>(Month::of(1950, 1) + build.month - assessment->first_month)) += answer.build[b];
  }
  compare_odds("generation ", assessment->generations, generations, out);
  compare_odds("variant ", assessment->variants, variants, out);
  compare_odds("body ", assessment->bodies, bodies, out);
  compare_odds("market ", assessment->markets, markets, out);
  compare_odds("plant ", assessment->plants, plants, out);
  out.compare("P(month)", assessment->month_odds, months);
}

}  // namespace

void Differences::compare(const std::string& what, double engine, Real oracle) {
  const double due = static_cast<double>(oracle), off = std::fabs(engine - due) / std::max(1.0, std::fabs(due));
  if (off > largest_) largest_ = off;
  if (off <= tolerance) return;  // false for what is not a number
  std::ostringstream out;
  out.precision(15);
  out << what << ": engine " << engine << ", oracle " << due << "\n";
  text_ += out.str();
}

void Differences::compare(const std::string& what, const std::vector<double>& engine, const Reals& oracle) {
  check(what + ": the number of values", engine.size() == oracle.size());
  for (std::size_t i = 0; i < std::min(engine.size(), oracle.size()); ++i)
    compare(what + "[" + std::to_string(i) + "]", engine[i], oracle[i]);
}

void Differences::check(const std::string& what, bool holds) {
  if (!holds) text_ += what + "\n";
}

Names letters(const SmallPack& pack) {
  const auto names = [](char letter, std::size_t n) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < n; ++i) out.push_back(letter + std::to_string(i));
    return out;
  };
  return {names('f', pack.features.size()), names('a', pack.assemblies.size()), names('k', pack.outsides.size())};
}

Differences compare_posterior(const Case& c) {
  const Model model(c.pack, c.visit);
  Differences out;
  const Answer answer = model.answer();
  const Engine engine = run_engine(c.tables, c.xml, given_words(c.visit));
  compare_builds(model, answer, engine, builds_of_engine(c.tables, model), out);
  compare_evidence(c, answer, engine, out);
  return out;
}

Differences compare_all(const Case& c) {
  const Model model(c.pack, c.visit);
  const Answer answer = model.answer();
  const Engine engine = run_engine(c.tables, c.xml, given_words(c.visit));
  const std::vector<std::size_t> at = builds_of_engine(c.tables, model);
  Differences out;
  compare_builds(model, answer, engine, at, out);
  compare_own(c, answer, engine, out);
  compare_evidence(c, answer, engine, out);
  compare_looks(c, model, answer, engine, out);
  compare_assemblies(c, model, answer, engine, at, out);
  compare_score(model, answer, engine.score, out);
  compare_marginals(c, model, answer, out);
  return out;
}

}  // namespace exworks::test::oracle
