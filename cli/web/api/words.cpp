#include "web/api/words.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "report/json/assessment_json.hpp"
#include "words/numbers.hpp"
#include "words/reasons.hpp"
#include "words/summary.hpp"
#include "words/english/terms.hpp"

namespace exworks::cli::web {

Json entry_json(const Entry& e) {
  Json fields = nullptr;
  if (e.fields) {
    fields = Json::object();
    for (const auto& [name, value] : *e.fields) fields[name] = value;
  }
  return {{"kind", e.kind}, {"name", e.name}, {"fields", std::move(fields)}, {"at", e.at}, {"by", e.by}, {"change", e.change}, {"tap", e.uid}};
}

Json odds_json(const Tables& t, const Assessment& a) {
  return {{"variant", lead_json(a.variants, t.axes.variants)}, {"generation", lead_json(a.generations, t.axes.generations)}, {"build_date", json_date(a.date)}, {"market", lead_json(a.markets, t.axes.markets)}};
}

Json number_json(const Tables& t, const NumberVerdict& n) {
  Json out = json_number(t, n);
  out["words"] = number_line(t, n);
  return out;
}

Json cautions_json(const Tables& t, const std::vector<std::size_t>& cautions) {
  Json out = Json::array();
  for (std::size_t c : cautions) {
    out.push_back(json_caution(t.catalogue.cautions[c]));
    out.back()["always"] = t.catalogue.cautions[c].always;
  }
  return out;
}

Json state_json(const State& s, const std::vector<std::pair<std::string, std::string>>& edited) {
  if (!s.assessment) return nullptr;
  const Assessment& a = *s.assessment;
  Json features = Json::object(), numbers = Json::object();
  for (const FeatureVerdict& f : a.features) features[s.tables->features[f.finding.feature].id] = {{"verdict", word(f.verdict)}, {"p_type", f.finding.p_type}, {"reason", reason_words(*s.tables, a, f)}};
  const VerdictCounts counts = verdict_counts(a);
  for (const NumberVerdict& n : a.numbers) numbers[s.tables->numbers[n.number].id] = number_json(*s.tables, n);
  return {{"odds", odds_json(*s.tables, a)},
          {"score", json_score(a.score)},
          {"counts", {{"original", counts.original}, {"later", counts.later}, {"uncertain", counts.uncertain}, {"observed", a.features.size()}}},
          {"features", std::move(features)},
          {"numbers", std::move(numbers)},
          {"said", said(s, edited)},
          {"cautions", cautions_json(*s.tables, a.cautions)}};
}

namespace {

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

/// What a person may type to find a feature: its names and its values', and the same in other English.
std::string search_words(const Tables& t, const FeatureInfo& f) {
  std::string all = f.name + " " + f.id + " " + f.ask;
  for (const ValueInfo& v : f.values) all += " " + v.name;
  std::string out = all;
  for (const Region region : {Region::en_US, Region::en_AU}) out += " " + Terms(t.catalogue.terms, region)(all);
  return lower(out);
}

Json value_list(const FeatureInfo& f) {
  Json out = Json::array();
  for (const ValueInfo& v : f.values) {
    Json like = Json::array();
    for (std::size_t l : v.looks_like) {
      if (l != f.other()) like.push_back({{"id", f.values[l].id}, {"name", f.values[l].name}});
    }
    out.push_back({{"id", v.id}, {"name", v.name}, {"how", v.recognise}, {"looks_like", std::move(like)}});
  }
  return out;
}

Json feature_list(const Tables& t) {
  Json out = Json::array();
  for (const FeatureInfo& f : t.features) {
    if (f.of_number) continue;
    std::string cautions;
    for (std::size_t c : f.cautions) cautions += (cautions.empty() ? "" : " ") + t.catalogue.cautions[c].id;
    out.push_back({{"id", f.id}, {"name", f.name}, {"place", t.catalogue.places[f.place].id}, {"assembly", f.assembly ? t.assemblies[*f.assembly].id : ""}, {"ask", f.ask}, {"minutes", f.minutes},
                   {"method", f.method}, {"tool", f.tool}, {"unit", f.unit}, {"caution", cautions}, {"search", search_words(t, f)}, {"values", value_list(f)}});
  }
  return out;
}

Json number_list(const Tables& t) {
  Json out = Json::array();
  for (const NumberInfo& n : t.numbers) {
    Json examples = Json::array();
    for (const FormInfo& f : n.forms) {
      if (!f.example.empty()) examples.push_back(f.example);
    }
    out.push_back({{"id", n.id}, {"name", n.name}, {"where", n.where}, {"examples", std::move(examples)}, {"identity", n.identity}});
  }
  return out;
}

template <class Items>
Json labels(const Items& items) {
  Json out = Json::array();
  for (const auto& item : items) out.push_back({{"id", item.id}, {"name", item.name}});
  return out;
}

}  // namespace

Json pack_json(const Tables& t) {
  std::vector<std::size_t> all(t.catalogue.cautions.size());
  for (std::size_t c = 0; c < all.size(); ++c) all[c] = c;
  Month first = t.axes.variants.front().first, last = t.axes.variants.front().last;
  for (const VariantInfo& v : t.axes.variants) {
    first = std::min(first, v.first);
    last = std::max(last, v.last);
  }
  return {{"id", t.family}, {"name", t.name}, {"version", t.version}, {"digest", t.digest}, {"span", {{"from", to_iso(first)}, {"to", to_iso(last)}}},
          {"places", labels(t.catalogue.places)}, {"cautions", cautions_json(t, all)}, {"features", feature_list(t)}, {"numbers", number_list(t)},
          {"variants", labels(t.axes.variants)}, {"markets", labels(t.axes.markets)}, {"generations", labels(t.axes.generations)}};
}

}  // namespace exworks::cli::web
