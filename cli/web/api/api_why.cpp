#include <algorithm>
#include <nlohmann/json.hpp>

#include "assess/summary.hpp"
#include "report/json/assessment_json.hpp"
#include "words/english/citations.hpp"
#include "words/facts.hpp"
#include "words/reasons.hpp"
#include "words/english/scopes.hpp"
#include "web/api/api.hpp"
#include "web/api/words.hpp"

/// One verdict opened: the facts, their sources, and the odds with and without the observation.
namespace exworks::cli::web {

namespace {

Json sources_of(const Tables& t, const Citations& citations) {
  Json out = Json::array();
  for (const std::size_t i : citations.cited()) {
    const SourceInfo& s = t.catalogue.sources[i];
    out.push_back({{"n", out.size() + 1}, {"kind", kind_words(s.kind)}, {"title", citation(s)}, {"url", s.url}});
  }
  return out;
}

Json facts_of(const Tables& t, const FeatureVerdict& v, Citations& cited) {
  Json out = Json::array();
  for (std::size_t i : v.reason.facts) {
    const FactInfo& f = t.features[v.finding.feature].facts[i];
    out.push_back({{"text", fact_words(t, v.finding.feature, f)}, {"sources", cited.numbers(f.sources)}});
  }
  return out;
}

/// With the month since which it was possible.
Json change_of(const Tables& t, const FeatureVerdict& v) {
  Json out = json_later_change(t, v);
  if (Json from = json_possible_from(t, v); !from.is_null()) out["from"] = std::move(from);
  return out;
}

Json lead_of(const Tables& t, const Assessment& a) {
  return {{"variant", t.axes.variants[a.variants.front().index].name}, {"p", a.variants.front().p}, {"build_date", json_date(a.date)}};
}

/// The same inspection without this observation; before looking at all when it is the only one.
Json lead_without(const State& s, const std::string& feature) {
  Inspection rest = s.inspection;
  std::erase_if(rest.observations, [&](const Observation& o) { return o.feature == feature; });
  Diagnostics ignored;
  const auto a = assess(*s.tables, rest, batch_settings(true), Given{}, ignored);
  return a ? lead_of(*s.tables, *a) : Json(nullptr);
}

Json history_of(Book& book, std::int64_t job, const std::string& feature) {
  Json out = Json::array();
  for (const Entry& e : book.history(job)) {
    if (e.kind == "observed" && e.name == feature) out.push_back(entry_json(e));
  }
  return out;
}

}  // namespace

Json Api::why(const Call& call) {
  const Job job = context_.job(call.job());
  const std::string& feature = call.parts.at(4);
  const auto state = context_.state(job.id);
  const auto whole = context_.lives().whole(job.id, *state);
  const auto at = whole ? state->tables->feature_index.find(feature) : decltype(state->tables->feature_index.end()){};
  const FeatureVerdict* v = whole && at != state->tables->feature_index.end() ? verdict_on(*whole, at->second) : nullptr;
  if (v == nullptr) throw Refusal{404, "nothing was noted of this feature that could be judged; answer its card first"};
  const Tables& t = *state->tables;
  Citations cited;
  Json facts = facts_of(t, *v, cited);
  cited.numbers(v->reason.sources);
  Json hinges = Json::array();
  for (std::size_t f : v->hinges_on) hinges.push_back(t.features[f].name);
  Json out = json_feature({t, state->inspection, *whole}, *v);
  out["facts"] = std::move(facts);
  out["sources"] = sources_of(t, cited);
  out["hinges_on"] = std::move(hinges);
  out["without"] = lead_without(*state, feature);
  out["with"] = lead_of(t, *whole);
  out["later_change"] = change_of(t, *v);
  if (const DonorDates* donor = v->donor()) out["donor"]["p"] = donor->p;
  out["history"] = context_.with_book([&](Book& book) { return history_of(book, job.id, feature); });
  return out;
}

}  // namespace exworks::cli::web
