#include "report/answers/explain_report.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.hpp"
#include "report/render/page.hpp"
#include "report/render/source_list.hpp"
#include "words/english/english.hpp"
#include "words/english/scales.hpp"
#include "words/english/scopes.hpp"

namespace exworks {

namespace {

/// "Home market, Series MM two-door saloon, 1951"; "" for the whole family.
std::string asked_words(const Tables& t, const AskedVehicles& a) {
  std::vector<std::string> parts;
  if (a.variant) parts.push_back(t.axes.variants[*a.variant].name);
  if (a.market) parts.push_back(t.axes.markets[*a.market].name);
  if (a.year) parts.push_back("built in " + std::to_string(*a.year));
  std::string out;
  for (const std::string& p : parts) out += (out.empty() ? "" : ", ") + p;
  return out;
}

std::string fitted_words(const FactInfo& f) {
  if (f.fitted == Fitted::option) return "an option, on about " + percent(f.share);
  if (f.fitted == Fitted::dealer) return "fitted by dealers, on about " + percent(f.share);
  return f.share < 1 ? "as standard, on about " + percent(f.share) : "as standard";
}

/// Shares that come from the facts are exact, so that all and none may be said.
std::string share_words(double share) {
  if (share >= 1 - 1e-9) return "all of them";
  return share > 1e-9 ? percent(share) + " of them" : "none of them";
}

/// How far its dates are trusted: ", give or take 2 months".
std::string doubt_words(const FactInfo& f) {
  const auto within = [](const std::optional<Edge>& edge, int months) { return edge && !edge->open ? months : 0; };
  const int from = within(f.from, f.from_within), to = within(f.to, f.to_within);
  if (from == 0 && to == 0) return "";
  return ", give or take " + (from == to || from == 0 || to == 0 ? counted(static_cast<std::size_t>(std::max(from, to)), "month") : counted(static_cast<std::size_t>(from), "month") + " and " + counted(static_cast<std::size_t>(to), "month"));
}

std::string fact_words(const Axes& axes, const FactInfo& f) {
  const std::string who = scope_words(axes, f.scope), when = period_words(f);
  std::string out = fitted_words(f) + ": " + (who.empty() ? std::string("every variant and market") : who);
  out += when.empty() ? ", for as long as they were built" : ", " + when + doubt_words(f);
  if (f.disputed) out += " (the sources disagree; the span covers both)";
  if (f.memory_only) out += " (from memory alone)";
  return out + ".";
}

void value_section(const Tables& t, const FeatureExplained& e, std::size_t value, Citations& citations, Page& page) {
  const FeatureInfo& info = t.features[e.feature];
  const ValueInfo& v = info.values[value];
  page.leader(v.name, share_words(e.share[value]), 2, Page::Tone::strong);
  if (!v.recognise.empty()) page.paragraph(v.recognise, 4, Page::Tone::faint);
  for (std::size_t f : e.facts) {
    const FactInfo& fact = info.facts[f];
    if (fact.value != value) continue;
    page.paragraph(fact_words(t.axes, fact) + citations.after(fact.sources), 4);
    if (!fact.note.empty()) page.paragraph(fact.note, 6);
  }
}

void change_section(const FeatureExplained& e, Citations& citations, Page& page) {
  if (e.changes.empty()) return;
  page.heading("Known later changes");
  for (const NamedChange* change : e.changes) {
    std::string text = change->spot;
    if (change->from && !change->from->open) text += (text.empty() ? "" : " ") + std::string("Possible from ") + to_words(change->from->first) + ".";
    page.paragraph(change->name + citations.after(change->sources), 2, Page::Tone::strong);
    if (!text.empty()) page.paragraph(text, 4);
  }
}

nlohmann::ordered_json sources_json(const Tables& t, const std::vector<std::size_t>& sources) {
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (std::size_t s : sources) {
    const SourceInfo& source = t.catalogue.sources[s];
    out.push_back({{"id", source.id}, {"kind", kind_words(source.kind)}, {"words", citation(source)}, {"url", source.url}});
  }
  return out;
}

}  // namespace

FeatureExplained explain_feature(const Tables& t, FeatureIndex feature, const AskedVehicles& asked) {
  const FeatureInfo& info = t.features[feature];
  FeatureExplained out;
  out.feature = feature;
  out.asked = asked;
  out.share.assign(info.value_count(), 0);
  std::set<std::size_t> facts, changes, conversions;
  double spoken = 0, silent = 0, without = 0;
  for (std::size_t r = 0; r < t.routes.size(); ++r) {
    const RouteInfo& route = t.routes[r];
    if ((asked.market && route.market != *asked.market) || (asked.variant && route.variant != *asked.variant)) continue;
    for (std::size_t i = 0; i < route.builds(); ++i) {
      const std::size_t build = route.first_build + i;
      if ((asked.year && (route.first + static_cast<int>(i)).year() != *asked.year) || t.prior[build] <= 0) continue;
      const double p = t.prior[build];
      const Column& column = info.columns[info.column_of[t.cell_of[build]]];
      out.vehicles += p;
      for (std::size_t c : info.changes) {
        if (t.changes[c].scope[r]) changes.insert(c);
      }
      for (std::size_t c = 0; c < t.conversions.size(); ++c) {
        const auto& sets = t.conversions[c].sets;
        if (t.conversions[c].scope[r] && std::any_of(sets.begin(), sets.end(), [&](const auto& s) { return s.feature == feature; })) conversions.insert(c);
      }
      facts.insert(column.facts.begin(), column.facts.end());
      if (!column.applies) without += p;
      else if (column.silent) silent += p;
      else {
        spoken += p;
        for (std::size_t v = 0; v < out.share.size(); ++v) out.share[v] += p * column.share[v];
      }
    }
  }
  if (spoken > 0) {
    for (double& s : out.share) s /= spoken;
  }
  if (out.vehicles > 0) out.silent = silent / out.vehicles, out.without = without / out.vehicles;
  out.facts.assign(facts.begin(), facts.end());
  for (std::size_t c : changes) out.changes.push_back(&t.changes[c]);
  for (std::size_t c : conversions) out.changes.push_back(&t.conversions[c]);
  return out;
}

std::string text_explained(const Tables& t, const FeatureExplained& e, bool colour) {
  const FeatureInfo& info = t.features[e.feature];
  const std::string whom = asked_words(t, e.asked);
  Page page(colour);
  page.heading(t.name + ": " + info.name + (whom.empty() ? "" : " (" + whom + ")"));
  if (e.vehicles <= 0) {
    page.paragraph("By this pack no such vehicle was built.");
    return page.text();
  }
  page.paragraph(info.ask);
  page.blank();
  Citations citations;
  for (std::size_t v = 0; v < info.values.size(); ++v) {
    const bool spoken = std::any_of(e.facts.begin(), e.facts.end(), [&](std::size_t f) { return info.facts[f].value == v; });
    if (spoken) value_section(t, e, v, citations, page);
  }
  std::vector<std::string> never;
  for (std::size_t v = 0; v < info.values.size(); ++v) {
    if (std::none_of(e.facts.begin(), e.facts.end(), [&](std::size_t f) { return info.facts[f].value == v; })) never.push_back(info.values[v].name);
  }
  if (!never.empty()) page.paragraph("The pack has no fact that puts these on them: " + join_and(never) + ".");
  if (e.silent > 0) page.paragraph("For " + percent(e.silent) + " of them the pack is silent: it does not say what the works fitted.");
  if (e.without > 0) page.paragraph(percent(e.without) + " of them have no such feature.");
  change_section(e, citations, page);
  list_sources(t, citations, true, page);
  return page.text();
}

nlohmann::ordered_json json_explained(const Tables& t, const FeatureExplained& e) {
  using Json = nlohmann::ordered_json;
  const FeatureInfo& info = t.features[e.feature];
  Json out = {{"family", t.family}, {"feature", info.id}, {"name", info.name}, {"ask", info.ask}, {"asked", Json::object()}, {"share_of_family", e.vehicles}};
  if (e.asked.year) out["asked"]["year"] = *e.asked.year;
  if (e.asked.market) out["asked"]["market"] = t.axes.markets[*e.asked.market].id;
  if (e.asked.variant) out["asked"]["variant"] = t.axes.variants[*e.asked.variant].id;
  out["values"] = Json::array();
  for (std::size_t v = 0; v < info.values.size(); ++v) {
    Json facts = Json::array();
    for (std::size_t f : e.facts) {
      const FactInfo& fact = info.facts[f];
      if (fact.value != v) continue;
      facts.push_back({{"name", fact.name}, {"fitted", word(fact.fitted)}, {"share", fact.share}, {"who", scope_words(t.axes, fact.scope)}, {"when", period_words(fact)}, {"from_within_months", fact.from_within}, {"to_within_months", fact.to_within}, {"disputed", fact.disputed}, {"memory_alone", fact.memory_only},
                       {"note", fact.note}, {"sources", sources_json(t, fact.sources)}});
    }
    out["values"].push_back({{"id", info.values[v].id}, {"name", info.values[v].name}, {"recognise", info.values[v].recognise}, {"share", e.share[v]}, {"facts", std::move(facts)}});
  }
  out["silent"] = e.silent;
  out["without_feature"] = e.without;
  out["later_changes"] = Json::array();
  for (const NamedChange* change : e.changes) {
    out["later_changes"].push_back({{"id", change->id}, {"name", change->name}, {"spot", change->spot}, {"sources", sources_json(t, change->sources)}});
  }
  return out;
}

}  // namespace exworks
