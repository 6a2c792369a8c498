#include "author/pack_items.hpp"

#include <algorithm>
#include <cstdio>

#include "base/text.hpp"
#include "engine/compile/axes.hpp"
#include "words/english/scopes.hpp"

namespace exworks {

namespace {

std::string if_given(const std::optional<double>& figure) { return figure ? figure_words(*figure) : ""; }

template <class Items>
std::string names_in(const Items& items, const AxisSet& set) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (set[i]) names.push_back(items[i].name);
  }
  return join_and(names);
}

/// "Engine: 1275 cc"
std::string set_words(const Pack& pack, FeatureIndex feature, ValueIndex value) {
  const Feature& f = pack.features[feature];
  return f.name + ": " + (value < f.values.size() ? f.values[value].name : "none of the known values");
}

std::string sets_words(const Pack& pack, const LaterChange& change) {
  std::vector<std::string> all;
  for (const auto& [feature, value] : change.sets) all.push_back(set_words(pack, feature, value));
  return join_and(all);
}

std::string sets_words(const Pack& pack, const Conversion& conversion) {
  std::vector<std::string> all;
  for (const auto& s : conversion.sets) all.push_back(set_words(pack, s.feature, s.value) + " (" + figure_words(s.surely) + ")");
  return join_and(all);
}

/// What is said of both kinds alike.
template <class Change>
std::vector<Said> said_of_change(const Pack& pack, const Change& c) {
  return {{"what it leaves", sets_words(pack, c)},
          {"possible", period_words(c.from, std::nullopt)},
          {"share", figure_words(c.share)},
          {"comes off again", word(c.reversible)},
          {"hours to put back", figure_words(c.hours)},
          {"how to tell", c.spot},
          {"vehicles", scope_words(axes_of(pack), c.scope)},
          {"source", cited_words(pack, c.sources)}};
}

}  // namespace

std::string figure_words(double figure) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%g", figure);
  return buffer;
}

std::string cited_words(const Pack& pack, const std::vector<std::size_t>& sources) {
  std::vector<std::string> cited;
  for (std::size_t s : sources) cited.push_back(citation(pack.sources[s]));
  std::sort(cited.begin(), cited.end());
  return join_and(cited);
}

std::vector<Said> said_of(const Pack&, const Market& m) {
  return {{"country", m.country}, {"steering", m.steering}, {"share", figure_words(m.share)}};
}

std::vector<Said> said_of(const Pack& pack, const Plant& p) {
  return {{"country", p.country},
          {"assembled from kits", p.kit ? "yes" : "no"},
          {"share", figure_words(p.share)},
          {"markets served", names_in(pack.markets, p.markets)},
          {"at work", period_words(p.from, p.to)}};
}

std::vector<Said> said_of(const Pack& pack, const Variant& v) {
  return {{"generation", pack.generations[v.generation].name},
          {"body", pack.bodies[v.body].name},
          {"built", period_words(v.from, v.to)},
          {"sold in", names_in(pack.markets, v.markets)},
          {"assembled at", names_in(pack.plants, v.plants)},
          {"number built", if_given(v.units)},
          {"source", cited_words(pack, v.sources)}};
}

std::vector<Said> said_of(const Pack&, const Assembly& a) {
  return {{"share replaced", if_given(a.replaced)}, {"hours to replace", figure_words(a.hours)}, {"comes off again", word(a.reversible)}};
}

std::vector<Said> said_of(const Pack& pack, const Feature& f) {
  return {{"place to stand", pack.places[f.standing_place].name},
          {"assembly", f.assembly ? pack.assemblies[*f.assembly].name : ""},
          {"question", f.ask},
          {"weight in the score", std::to_string(f.weight)},
          {"minutes to look", figure_words(f.minutes)},
          {"way of looking", f.method},
          {"tool", f.tool},
          {"unit", f.unit},
          {"share changed by itself", if_given(f.altered)},
          {"vehicles that have it", scope_words(axes_of(pack), f.applies)},
          {"what the others show", f.elsewhere && *f.elsewhere < f.values.size() ? f.values[*f.elsewhere].name : ""}};
}

std::vector<Said> said_of(const Feature& feature, const Value& v) {
  std::vector<std::string> alike;
  for (std::size_t i : v.looks_like) alike.push_back(i < feature.values.size() ? feature.values[i].name : "none of these");
  return {{"name", v.name}, {"how to tell", v.recognise}, {"mixed up with", join_and(alike)}, {"measure", if_given(v.measure)}, {"give or take", if_given(v.tolerance)}};
}

std::vector<Said> said_of(const Pack& pack, const LaterChange& c) { return said_of_change(pack, c); }

std::vector<Said> said_of(const Pack& pack, const Conversion& c) { return said_of_change(pack, c); }

}  // namespace exworks
