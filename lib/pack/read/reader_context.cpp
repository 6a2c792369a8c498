#include "pack/read/reader_context.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace exworks {

namespace {

/// Is there any build in the scope: a variant that lists a market and a plant which serves that market?
bool any_build(const Pack& pack, const Scope& scope) {
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    if (!scope.variants[v]) continue;
    for (std::size_t p = 0; p < pack.plants.size(); ++p) {
      if (!scope.plants[p] || !pack.variants[v].plants[p]) continue;
      if ((pack.variants[v].markets & pack.plants[p].markets & scope.markets).any()) return true;
    }
  }
  return false;
}

}  // namespace

std::vector<std::string_view> with_scope(std::vector<std::string_view> names) {
  names.insert(names.end(), scope_attributes.begin(), scope_attributes.end());
  return names;
}

std::vector<std::string_view> with_override(std::vector<std::string_view> names) {
  names.insert(names.end(), override_attributes.begin(), override_attributes.end());
  return names;
}

void check_override(const Attributes& a) {
  if (a.has("overrides") && a.text_or("reason", "").empty()) {
    a.diagnostics().error(a.element().place("overrides"), "this overrides a line of another pack without saying why", "write reason=\"...\"; reports show it");
  } else if (!a.has("overrides") && a.has("reason")) {
    a.diagnostics().error(a.element().place("reason"), "there is a reason but nothing is overridden", "write overrides=\"...\" too, or put the reason into the text");
  }
}

void ReaderContext::retired(const Element& element, std::string_view name, const std::string& instead) {
  if (!element.attribute(name)) return;
  const std::string what = "'" + std::string(name) + "' means nothing since format 2";
  if (of_format_1.contains(element.place().file)) diagnostics.note(element.place(name), what, instead);
  else diagnostics.error(element.place(name), what, instead);
}

AxisSet ReaderContext::members(const Attributes& attributes, std::string_view name, const Ids& ids) {
  AxisSet all;
  for (std::size_t i = 0; i < ids.names().size() && i < axis_limit; ++i) all.set(i);
  if (!attributes.has(name)) return all;
  AxisSet set;
  bool first = true;
  for (std::string word : split_words(attributes.text(name))) {
    const bool take_away = word.front() == '!';
    if (take_away) word.erase(0, 1);
    if (first && take_away) set = all;
    first = false;
    AxisSet hit;
    for (std::size_t i = 0; i < ids.names().size() && i < axis_limit; ++i) {
      if (glob_match(word, ids.names()[i])) hit.set(i);
    }
    if (hit.none()) {
      const Place place = attributes.element().place(name);
      if (word.find('*') != std::string::npos) diagnostics.error(place, "no " + ids.kind() + " matches '" + word + "'", "known are " + join_and(ids.names()));
      else ids.resolve(word, place, diagnostics);
    }
    set = take_away ? set & ~hit : set | hit;
  }
  return set;
}

Scope ReaderContext::scope(const Attributes& attributes) {
  const std::size_t errors = diagnostics.error_count();
  Scope scope;
  scope.variants = members(attributes, "variants", variants);
  scope.markets = members(attributes, "markets", markets);
  scope.plants = members(attributes, "plants", plants);
  const AxisSet by_generation = members(attributes, "generations", generations);
  const AxisSet by_body = members(attributes, "bodies", bodies);
  for (std::size_t v = 0; v < pack.variants.size() && v < axis_limit; ++v) {
    if (!by_generation[pack.variants[v].generation] || !by_body[pack.variants[v].body]) scope.variants.reset(v);
  }
  if (axes_sound && diagnostics.error_count() == errors && !any_build(pack, scope)) {
    diagnostics.error(attributes.element().place(), "no vehicle was ever built in the scope of this '" + attributes.element().name() + "'",
                      "check that these variants list the markets and plants, and that the plants serve the markets");
  }
  return scope;
}

std::vector<std::size_t> ReaderContext::references(const Attributes& attributes, std::string_view name, const Ids& ids) {
  std::vector<std::size_t> out;
  for (const std::string& word : split_words(attributes.text_or(name, ""))) {
    const auto known = ids.find(word);
    if (const auto i = known ? known : ids.resolve(word, attributes.element().place(name), diagnostics)) out.push_back(*i);
  }
  return out;
}

std::vector<std::size_t> ReaderContext::cited(const Attributes& attributes, bool required) {
  if (required && attributes.text_or("source", "").empty()) {
    diagnostics.error(attributes.element().place(), "this '" + attributes.element().name() + "' has no source",
                      "write source=\"...\"; source=\"memory\" when it is only remembered");
  }
  const std::vector<std::size_t> out = references(attributes, "source", sources);
  for (std::size_t s : out) pack.sources[s].cited = true;
  return out;
}

std::optional<std::size_t> ReaderContext::reference(const Attributes& attributes, std::string_view name, const Ids& ids, bool required) {
  if (!attributes.has(name)) {
    if (required) attributes.text(name);
    return std::nullopt;
  }
  const std::string id = attributes.text(name);
  if (id.empty()) return std::nullopt;
  const auto known = ids.find(id);
  return known ? known : ids.resolve(id, attributes.element().place(name), diagnostics);
}

std::optional<ValueIndex> ReaderContext::value_of(FeatureIndex feature, const std::string& id, const Place& place) {
  if (id.empty()) return std::nullopt;  // reported already
  if (id == "other") return ValueIndex{values[feature].names().size()};
  const auto known = values[feature].resolve(id, place, diagnostics);
  return known ? std::optional(ValueIndex{*known}) : std::nullopt;
}

}  // namespace exworks
