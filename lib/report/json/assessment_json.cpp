#include "report/json/assessment_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "words/claims.hpp"
#include "words/codes.hpp"
#include "words/numbers.hpp"
#include "words/readings.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/english/scopes.hpp"

namespace exworks {

using Json = nlohmann::ordered_json;

namespace {

template <class Items>
Json odds(const std::vector<Odds>& list, const Items& items) {
  Json out = Json::array();
  for (const Odds& o : list) out.push_back({{"id", items[o.index].id}, {"p", o.p}});
  return out;
}

Json source_list(const Tables& t, const std::vector<std::size_t>& sources) {
  Json out = Json::array();
  for (std::size_t s : sources) {
    const SourceInfo& source = t.catalogue.sources[s];
    Json one = {{"id", source.id}, {"kind", kind_words(source.kind)}, {"title", citation(source)}};
    if (!source.url.empty()) one["url"] = source.url;
    out.push_back(std::move(one));
  }
  return out;
}

Json feature_ids(const Tables& t, const std::vector<std::size_t>& features) {
  Json out = Json::array();
  for (std::size_t f : features) out.push_back(t.features[f].id);
  return out;
}

Json explanation(const Tables& t, const Explanation& e) {
  Json out = {{"cause", word(e.cause)}, {"p", e.p}};
  if (e.change) out["change"] = t.changes[*e.change].id;
  if (e.conversion) out["change"] = t.conversions[*e.conversion].id;
  if (e.donor) out["donor"] = {{"from", to_iso(e.donor->from)}, {"to", to_iso(e.donor->to)}};
  return out;
}

}  // namespace

Json json_later_change(const Tables& t, const FeatureVerdict& f) {
  const NamedChange* c = named_change(t, f);
  if (c == nullptr) return nullptr;
  return {{"id", c->id}, {"name", c->name}, {"reversible", word(c->reversible)}, {"hours", c->hours}, {"spot", c->spot}};
}

Json json_possible_from(const Tables& t, const FeatureVerdict& f) {
  const NamedChange* change = named_change(t, f);
  if (change == nullptr || !change->from || change->from->open) return nullptr;
  return to_iso(change->from->first);
}

Json json_donor(const FeatureVerdict& f) {
  const DonorDates* donor = f.donor();
  if (donor == nullptr) return nullptr;
  return {{"from", to_iso(donor->from)}, {"to", to_iso(donor->to)}};
}

Json json_feature(const Case& of, const FeatureVerdict& f) {
  const Tables& t = of.tables;
  const FeatureInfo& info = t.features[f.finding.feature];
  Json out;
  out["id"] = info.id;
  out["name"] = info.name;
  out["observed"] = t.values_id(f.finding.feature, f.noted);
  out["observed_name"] = observed_words(t, f);
  out["place"] = t.catalogue.places.empty() ? "" : t.catalogue.places[info.place].id;
  out["assembly"] = info.assembly ? Json(t.assemblies[*info.assembly].id) : Json(nullptr);
  out["verdict"] = word(f.verdict);
  out["p_type"] = f.p;
  out["lean"] = f.lean ? Json(word(*f.lean)) : Json(nullptr);
  out["silent"] = f.finding.p_silent;
  // Beyond any double: the observation is impossible for one of the two.
  out["likelihood_ratio"] = std::isfinite(f.finding.likelihood_ratio) ? Json(f.finding.likelihood_ratio) : Json(1e300);
  out["strength"] = strength_words(f);
  out["part"] = part_words(f);
  out["p_part"] = f.part.p;
  out["reason"] = reason_words(t, of.assessment, f);
  out["note"] = noted_words(of, f);
  Json facts = Json::array();
  for (std::size_t i : f.reason.facts) {
    const FactInfo& fact = info.facts[i];
    facts.push_back({{"value", t.value_id(f.finding.feature, fact.value)}, {"fitted", word(fact.fitted)}, {"share", fact.share}, {"scope", scope_words(t.axes, fact.scope)}, {"period", period_words(fact)},
                     {"disputed", fact.disputed}});
  }
  out["facts"] = std::move(facts);
  out["sources"] = source_list(t, f.reason.sources);
  out["memory_alone"] = f.reason.memory_alone;
  out["later_change"] = json_later_change(t, f);
  out["donor"] = json_donor(f);
  out["explanations"] = Json::array();
  for (const Explanation& e : f.reason.explanations) out["explanations"].push_back(explanation(t, e));
  out["reversible"] = word(f.reversible);
  out["hours"] = f.hours;
  out["hinges_on"] = feature_ids(t, f.hinges_on);
  return out;
}

Json json_reading(const Case& of, const Reading& r) {
  const Tables& t = of.tables;
  Json out = {{"given", condition_words(of, r)}, {"odds", r.p}, {"possible", r.possible}};
  if (r.leading) {
    const RouteInfo& route = t.routes[r.leading->route];
    out["build"] = {{"variant", t.axes.variants[route.variant].id}, {"market", t.axes.markets[route.market].id}, {"plant", t.axes.plants[route.plant].id}, {"p", r.leading->p}};
    out["build_date"] = {{"from", to_iso(r.date.from)}, {"to", to_iso(r.date.to)}};
  }
  out["features"] = Json::array();
  for (const ReadingLine& f : r.features) out["features"].push_back({{"id", t.features[f.feature].id}, {"observed", t.values_name(f.feature, f.noted)}, {"verdict", word(f.verdict)}, {"p_type", f.p_type}});
  return out;
}

namespace {

Json looked(const Inspection& in, const std::vector<std::size_t>& observations) {
  Json out = Json::array();
  for (std::size_t o : observations) out.push_back({{"feature", in.observations[o].feature}, {"note", in.observations[o].note}});
  return out;
}

}  // namespace

Json json_number(const Tables& t, const NumberVerdict& n) {
  const NumberInfo& info = t.numbers[n.number];
  Json out;
  out["id"] = info.id;
  out["name"] = info.name;
  out["text"] = n.text;
  out["form"] = form_name(t, n);
  Json parts = Json::array();
  for (const PartWords& p : number_parts(t, n)) parts.push_back({{"name", p.name}, {"text", p.text}, {"means", p.means}});
  out["parts"] = std::move(parts);
  out["forgiven"] = slips_of(n);
  if (n.window) out["built"] = {{"from", to_iso(n.window->from)}, {"to", to_iso(n.window->to)}};
  else out["built"] = nullptr;
  out["where"] = info.where;
  out["agrees"] = word(n.agrees);
  out["p_own"] = n.p_own.value_or(0.0);
  out["note"] = number_note(t, n);
  return out;
}

Json json_claim(const Case& of, const ClaimVerdict& c) {
  const Claim& claim = of.inspection.claims[c.claim];
  return {{"claim", claim_words(of.tables, claim)}, {"by", claim.by}, {"p", c.p}, {"p_before", c.p_before}, {"seen", word(c.support)}};
}

Json json_document(const Case& of, const DocumentVerdict& d) { return {{"document", paper_words(of.inspection, d.paper)}, {"reliability", d.paper.reliability}, {"p_right", d.p_right}}; }

Json json_date(const DateSet& d) { return {{"from", to_iso(d.from)}, {"to", to_iso(d.to)}, {"level", d.level}, {"most_likely", to_iso(d.most_likely)}}; }

Json json_score(const Score& s) {
  if (s.weight > 0) return {{"value", s.value}, {"low", s.low}, {"high", s.high}, {"coverage", s.coverage}};
  return {{"value", nullptr}, {"low", nullptr}, {"high", nullptr}, {"coverage", s.coverage}};
}

Json json_fit(const Assessment& a) { return {{"p", a.fit.p}, {"note", fit_words(a)}}; }

Json json_caution(const CautionInfo& c) { return {{"id", c.id}, {"name", c.name}, {"text", c.text}}; }

Json json_report(const Case& of) {
  const Tables& t = of.tables;
  const Inspection& in = of.inspection;
  const Assessment& a = of.assessment;
  Json out;
  out["family"] = t.family;
  out["pack_version"] = t.version;
  out["pack_digest"] = t.digest;
  out["extends"] = Json::array();
  for (const BaseEdition& e : t.extends) out["extends"].push_back({{"family", e.family}, {"pack_version", e.version}, {"pack_digest", e.digest}});
  out["invented"] = t.invented;
  out["vehicle"] = vehicle_name(in);
  out["reference"] = in.reference;
  out["inspected"] = a.inspected ? Json(to_iso(*a.inspected)) : Json(nullptr);
  Json builds = Json::array();
  for (const RouteOdds& r : a.routes) {
    const RouteInfo& route = t.routes[r.route];
    const VariantInfo& v = t.axes.variants[route.variant];
    builds.push_back({{"variant", v.id}, {"generation", t.axes.generations[v.generation].id}, {"body", t.axes.bodies[v.body].id}, {"market", t.axes.markets[route.market].id},
                      {"plant", t.axes.plants[route.plant].id}, {"from", to_iso(r.from)}, {"to", to_iso(r.to)}, {"p", r.p}});
  }
  out["builds"] = std::move(builds);
  out["generation"] = odds(a.generations, t.axes.generations);
  out["variant"] = odds(a.variants, t.axes.variants);
  out["body"] = odds(a.bodies, t.axes.bodies);
  out["market"] = odds(a.markets, t.axes.markets);
  out["plant"] = odds(a.plants, t.axes.plants);
  out["build_date"] = json_date(a.date);
  Json features = Json::array();
  for (const FeatureVerdict& f : a.features) features.push_back(json_feature(of, f));
  out["features"] = std::move(features);
  Json numbers = Json::array();
  for (const NumberVerdict& n : a.numbers) numbers.push_back(json_number(t, n));
  out["numbers"] = std::move(numbers);
  Json claims = Json::array();
  for (const ClaimVerdict& c : a.claims) claims.push_back(json_claim(of, c));
  out["claims"] = std::move(claims);
  Json documents = Json::array();
  for (const DocumentVerdict& d : a.documents) documents.push_back(json_document(of, d));
  out["documents"] = std::move(documents);
  Json codes = Json::array();
  for (const CodeVerdict& c : a.codes) {
    const DateCode& code = in.codes[c.code];
    codes.push_back({{"kind", code.kind}, {"text", code.text}, {"feature", code.feature}, {"dates", code_dates(c)}, {"timing", word(c.timing)}, {"words", timing_words(c)}, {"remark", code_remark(c)}, {"source", c.reading.source}});
  }
  out["codes"] = std::move(codes);
  Json readings = Json::array();
  for (const Reading& r : a.readings) readings.push_back(json_reading(of, r));
  out["readings"] = std::move(readings);
  out["hinges_on"] = feature_ids(t, a.hinges_on);
  out["missing"] = looked(in, a.missing);
  out["cannot_tell"] = looked(in, a.cannot_tell);
  out["conversions"] = Json::array();
  for (std::size_t c = 0; c < a.conversions.size(); ++c) {
    if (a.conversions[c].seen) out["conversions"].push_back({{"id", t.conversions[c].id}, {"name", t.conversions[c].name}, {"p", a.conversions[c].p}});
  }
  out["alteration"] = Json::array();
  for (std::size_t l = 0; l < a.alteration.size(); ++l) out["alteration"].push_back({{"factor", t.rates.alteration[l]}, {"p", a.alteration[l]}});
  out["score"] = json_score(a.score);
  out["fit"] = json_fit(a);
  Json cautions = Json::array();
  for (std::size_t c : a.cautions) cautions.push_back(json_caution(t.catalogue.cautions[c]));
  out["cautions"] = std::move(cautions);
  out["remarks"] = Json::array();
  for (const Remark& r : a.remarks) out["remarks"].push_back(remark_words(in, r));
  out["settings"] = {{"original_from", a.settings.original_from}, {"later_to", a.settings.later_to}, {"memory_decides", a.settings.memory_decides}};
  return out;
}

}  // namespace exworks
