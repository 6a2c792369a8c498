#include "oracle_compare.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "oracle_engine.hpp"
#include "oracle_noted.hpp"

namespace exworks::test::oracle {

namespace {

constexpr double tolerance = 1e-9;

void compare_builds(const Model& model, const Answer& answer, const EngineAnswer& engine, Differences& out) {
  for (std::size_t b = 0; b < answer.build.size(); ++b) {
    const Build& build = model.builds()[b];
    out.compare("P(build v" + std::to_string(build.variant) + " month " + std::to_string(build.month) + " m" +
                    std::to_string(build.market) + " p" + std::to_string(build.plant) + ")",
                engine.build.at(b), answer.build[b]);
  }
}

void compare_life(const Answer& answer, const EngineAnswer& engine, Differences& out) {
  out.compare("P(level)", engine.level, {answer.level.begin(), answer.level.end()});
  out.compare("P(conversion)", engine.conversion, answer.conversion);
}

void compare_own(const Case& c, const Answer& answer, const EngineAnswer& engine, Differences& out) {
  const bool read = !c.visit.numbers.empty() && !c.pack.numbers[c.visit.numbers.front().number].assembly;
  out.check("there is an identity number", engine.p_own.has_value() == read);
  if (engine.p_own && read) out.compare("P(number is its own)", *engine.p_own, answer.p_own);
}

/// What papers weigh is said up to a factor (they "multiply the odds"), and under a condition P(o) could mean two things.
void compare_evidence(const Case& c, const Answer& answer, const EngineAnswer& engine, Differences& out) {
  if (c.visit.papers.empty() && c.visit.claims.empty() && given_words(c.visit).empty())
    out.compare("log P(o)", engine.log_evidence, std::log(answer.evidence));
}

std::string name_of(const Case& c, std::size_t feature) {
  return feature < c.names.features.size() ? c.names.features[feature] : "serial " + std::to_string(feature);
}

std::string name_of(const Reason& reason) {
  const char* const kinds[] = {"as it was",         "conversion",   "known change",  "family by itself",
                               "outside by itself", "family donor", "outside donor", "unnamed donor"};
  return std::string(kinds[static_cast<std::size_t>(reason.kind)]) + " " + std::to_string(reason.index);
}

void compare_explanations(const std::string& id, const EngineLook& engine, const LookAnswer& a, Differences& out) {
  std::map<Reason, double> all = engine.explanations;
  for (const auto& [reason, p] : a.explanations) {
    out.compare(id + " explanation " + name_of(reason), all[reason], p);
    all.erase(reason);
  }
  for (const auto& [reason, p] : all) out.compare(id + " explanation " + name_of(reason), p, 0);
}

void compare_look(const std::string& id, const EngineLook& engine, const LookAnswer& a, Differences& out) {
  out.compare(id + " P(type as built)", engine.p_type, a.p_type);
  out.compare(id + " P(type as built) before the look", engine.p_before, a.type_before);
  // Where one of the two is impossible both are infinite.
  const Real ratio = std::log(a.ratio);
  if (std::isfinite(ratio) || std::log(Real{engine.likelihood_ratio}) != ratio)
    out.compare(id + " log of the likelihood ratio", std::log(engine.likelihood_ratio), ratio);
  out.compare(id + " P(untouched)", engine.p_untouched, a.p_untouched);
  out.compare(id + " P(silent)", engine.p_silent, a.p_silent);
  out.compare(id + " P(type, spoken)", engine.p_type_spoken, a.p_type_spoken);
  out.compare(id + " P(later, spoken)", engine.p_later_spoken, 1 - a.p_silent - a.p_type_spoken);
  out.compare(id + " P(value there)", engine.there, a.there);
  out.compare(id + " works share", engine.works, a.works);
  compare_explanations(id, engine, a, out);
}

void compare_looks(const Case& c, const Model& model, const Answer& answer, const EngineAnswer& engine, Differences& out) {
  const std::vector<Look>& looks = model.looks();
  out.check("the number of findings", engine.looks.size() == looks.size());
  for (const EngineLook& look : engine.looks) {
    const std::string id = name_of(c, look.feature);
    const auto at = std::find_if(looks.begin(), looks.end(), [&](const Look& l) { return l.feature == look.feature; });
    out.check("a look at " + id, at != looks.end());
    if (at == looks.end()) continue;
    out.check(id + ": what the look leaves open", look.left_open == left_open(model.features()[look.feature], *at));
    compare_look(id, look, answer.looks[static_cast<std::size_t>(at - looks.begin())], out);
  }
}

void compare_assemblies(const Case& c, const Model& model, const Answer& answer, const EngineAnswer& engine, Differences& out) {
  std::vector<bool> found(c.pack.assemblies.size(), false);
  for (const EngineAssembly& assembly : engine.assemblies) {
    const std::string& id = c.names.assemblies[assembly.assembly];
    const AssemblyAnswer& due = answer.assemblies[assembly.assembly];
    found[assembly.assembly] = true;
    out.compare(id + " P(replaced)", assembly.p_replaced, due.p_replaced);
    out.compare(id + " P(donor | replaced)", assembly.donor, due.donor);
    out.compare(id + " P(outside | replaced)", assembly.outside, due.outside);
    out.compare(id + " P(unnamed | replaced)", assembly.p_unnamed, due.p_unnamed);
  }
  for (const Look& look : model.looks()) {
    const auto assembly = model.features()[look.feature].assembly;
    if (assembly) out.check("no finding for a" + std::to_string(*assembly), found[*assembly]);
  }
}

/// The engine stops at 99.9 % of the odds (score.hpp): its mean and the 5 % outside each end of the interval are as near.
void compare_score(const Model& model, const Answer& answer, const EngineScore& score, Differences& out) {
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
  out.compare("originality score", score.value, mean);
  out.check("score's low end", below_low <= 0.05L + left_out && to_low >= 0.05L - left_out);
  out.check("score's high end", below_high <= 0.95L + left_out && to_high >= 0.95L - left_out);
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
  const auto names = [](const std::string& letter, std::size_t n) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < n; ++i) out.push_back(letter + std::to_string(i));
    return out;
  };
  Names out{names("f", pack.features.size()), names("a", pack.assemblies.size()), names("k", pack.outsides.size()),
            names("j", pack.conversions.size())};
  for (std::size_t f = 0; f < pack.features.size(); ++f)
    out.changes.push_back(names(out.features[f] + "-c", pack.features[f].changes.size()));
  return out;
}

Case case_of(const SmallPack& pack, const Tables& tables, const Visit& visit, const std::string& more) {
  return {pack, tables, visit, visit_xml(pack, visit, more), letters(pack)};
}

std::size_t place_in(const std::vector<std::string>& names, const std::string& name) {
  const auto at = std::find(names.begin(), names.end(), name);
  INFO(name);
  REQUIRE(at != names.end());
  return static_cast<std::size_t>(at - names.begin());
}

Differences compare_posterior(const Case& c) {
  const Model model(c.pack, c.visit);
  Differences out;
  const Answer answer = model.answer();
  const EngineRun engine(c);
  compare_builds(model, answer, engine.answer(), out);
  compare_life(answer, engine.answer(), out);
  compare_evidence(c, answer, engine.answer(), out);
  return out;
}

Differences compare_all(const Case& c) {
  const Model model(c.pack, c.visit);
  const Answer answer = model.answer();
  const EngineRun run(c);
  const EngineAnswer& engine = run.answer();
  Differences out;
  compare_builds(model, answer, engine, out);
  compare_life(answer, engine, out);
  compare_own(c, answer, engine, out);
  compare_evidence(c, answer, engine, out);
  compare_looks(c, model, answer, engine, out);
  compare_assemblies(c, model, answer, engine, out);
  compare_score(model, answer, engine.score, out);
  compare_report(c, model, answer, out);
  return out;
}

}  // namespace exworks::test::oracle
