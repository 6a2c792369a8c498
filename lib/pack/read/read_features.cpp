#include <algorithm>

#include "base/text.hpp"
#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

Value read_value(ReaderContext& context, const Element& element, const Feature& feature) {
  const Attributes a(element, context.diagnostics, {"id", "name", "looks-like", "measure", "tolerance"});
  Value v;
  v.id = a.id();
  v.name = a.text("name");
  v.recognise = element.text();
  v.measure = a.number("measure", -1e9, 1e9);
  v.tolerance = a.number("tolerance", 0, 1e9);
  v.place = element.place();
  if (v.id == "other") context.diagnostics.error(element.place("id"), "'other' is every feature's last value already", "use another id");
  if (v.measure && feature.unit.empty()) {
    context.diagnostics.error(element.place("measure"), "value '" + v.id + "' has a measure but feature '" + feature.id + "' has no unit", "add unit=\"mm\" to the feature");
  }
  if (v.measure && !v.tolerance) context.diagnostics.error(element.place("measure"), "a measure needs a tolerance", "write tolerance=\"...\" in the same unit");
  return v;
}

/// What both kinds of later change have; `own` is the attribute that says what it changes.
std::vector<std::string_view> change_attributes(std::string_view own) {
  return with_scope({"id", "name", "from", "share", "reversible", "hours", "source", own});
}

/// What a later change and a conversion say alike. `ids`: those of its kind.
template <class Change>
Change read_named(ReaderContext& context, const Attributes& a, Ids& ids, double default_share, double top_share) {
  const Element& element = a.element();
  Change c;
  c.id = a.id();
  c.name = a.text("name");
  c.spot = element.text();
  c.from = a.edge("from");
  c.share = a.number("share", 0.0001, top_share).value_or(default_share);
  c.hours = a.number("hours", 0, 10000).value_or(0);
  c.reversible = a.one_of("reversible", Reversible::yes);
  c.scope = context.scope(a);
  c.sources = context.cited(a, true);
  c.place = element.place();
  ids.add(c.id, c.place, context.diagnostics);
  return c;
}

LaterChange read_change(ReaderContext& context, const Attributes& a, double default_share, double top_share) {
  return read_named<LaterChange>(context, a, context.later_changes, default_share, top_share);
}

/// All values before anything refers to one: "other" is the index after the last.
void read_values(ReaderContext& context, const std::vector<Element>& lines, Feature& feature) {
  context.values.emplace_back("value");
  Ids& ids = context.values.back();
  for (const Element& child : lines) {
    if (child.name() != "value") continue;
    Value v = read_value(context, child, feature);
    ids.add(v.id, v.place, context.diagnostics);
    feature.values.push_back(std::move(v));
  }
  std::size_t next = 0;
  for (const Element& child : lines) {
    if (child.name() != "value") continue;
    const auto looks = child.attribute("looks-like");
    Value& v = feature.values[next++];
    if (!looks) continue;
    for (const std::string& word : split_words(*looks)) {
      if (word == "other") {
        v.looks_like.push_back(feature.values.size());
        continue;
      }
      if (const auto i = ids.resolve(word, child.place("looks-like"), context.diagnostics)) v.looks_like.push_back(*i);
    }
  }
  if (feature.values.empty()) context.diagnostics.error(feature.place, "feature '" + feature.id + "' has no values", "write at least one value");
}

/// `<alike values="a b" rate="0.05"/>`
void read_alike(ReaderContext& context, const Element& element, FeatureIndex index, Feature& f) {
  const Attributes a(element, context.diagnostics, {"values", "rate"});
  std::vector<std::size_t> values;
  for (const std::string& word : split_words(a.text("values"))) {
    if (const auto v = context.values[index].resolve(word, element.place("values"), context.diagnostics)) values.push_back(*v);
  }
  if (!a.has("rate")) a.text("rate");
  const auto rate = a.number("rate", 0.0001, 0.5);
  if (values.size() == 2 && values[0] != values[1] && rate) f.alike.push_back({values[0], values[1], *rate, element.place()});
  else if (!context.diagnostics.has_errors()) context.diagnostics.error(element.place("values"), "an alike pair has two values", "write values=\"one other\"");
}

/// `<values id="ohv" of="a b" name="an overhead-valve engine"/>`
void read_group(ReaderContext& context, const Element& element, FeatureIndex index, Feature& f) {
  const Attributes a(element, context.diagnostics, {"id", "of", "name"});
  NamedValues group{a.id(), a.text("name"), {}, element.place()};
  for (const std::string& word : split_words(a.text("of"))) {
    if (const auto v = context.value_of(index, word, element.place("of"))) group.values.push_back(*v);
  }
  std::sort(group.values.begin(), group.values.end());
  const bool taken = group.id == "other" || context.values[index].find(group.id) || std::any_of(f.groups.begin(), f.groups.end(), [&](const NamedValues& g) { return g.id == group.id; });
  if (taken) context.diagnostics.error(element.place("id"), "'" + group.id + "' is a value or a group already", "use another id");
  if (group.values.size() < 2) context.diagnostics.error(element.place("of"), "a group of values holds two at least", "name them in of=\"...\"");
  f.groups.push_back(std::move(group));
}

void read_elsewhere(ReaderContext& context, const Element& element, FeatureIndex index, Feature& f) {
  const auto word = element.attribute("elsewhere");
  if (!word) return;
  if (std::none_of(scope_attributes.begin(), scope_attributes.end(), [&](std::string_view axis) { return element.has(axis); })) {
    context.diagnostics.error(element.place("elsewhere"), "every vehicle has feature '" + f.id + "', so there is no elsewhere",
                              "say by a scope which vehicles have it (markets=\"...\"), or leave this out");
  }
  f.elsewhere = context.value_of(index, *word, element.place("elsewhere"));
}

void read_line(ReaderContext& context, const Element& child, FeatureIndex index, Feature& f, bool added) {
  const std::string name = child.name();
  if (name == "ask" && !added) {
    f.ask = child.text();
  } else if (name == "fact") {
    read_fact_of(context, child, index, f, added);
  } else if (name == "legal") {
    if (auto fact = read_legal(context, child, index)) f.facts.push_back(std::move(*fact));
  } else if (name == "later") {
    const Attributes a(child, context.diagnostics, change_attributes("value"));
    LaterChange c = read_change(context, a, 1, 1e6);
    c.feature = index;
    if (const auto v = context.value_of(index, a.text("value"), child.place("value"))) c.sets.push_back({index, *v});
    context.pack.later_changes.push_back(std::move(c));
  } else if (name == "alike") {
    read_alike(context, child, index, f);
  } else if (name == "values") {
    read_group(context, child, index, f);
  } else if (name != "value") {
    std::vector<std::string> known{"value", "values", "alike", "fact", "legal", "later"};
    if (!added) known.insert(known.begin(), "ask");
    unknown_element(child, known, context.diagnostics);
  }
}

}  // namespace

void read_feature(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics,
                     with_override(with_scope({"id", "name", "place", "assembly", "weight", "minutes", "altered", "class", "foreign", "slip", "method", "tool", "unit", "caution", "component", "elsewhere"})));
  check_override(a);
  Feature f;
  f.place = element.place();
  f.id = a.id();
  f.name = a.text("name");
  f.standing_place = context.reference(a, "place", context.places, true).value_or(0);
  f.assembly = context.reference(a, "assembly", context.assemblies, false);
  f.weight = static_cast<int>(a.integer("weight", 0, 10).value_or(1));
  f.minutes = a.number("minutes", 0.1, 600).value_or(1);
  f.altered = a.number("altered", 0.0001, 0.9);
  const std::string change_class = a.choice("class", {change_class_words.begin(), change_class_words.end()}, "");
  for (std::size_t c = 0; c < change_classes; ++c) {
    if (change_class == change_class_words[c]) f.change_class = static_cast<ChangeClass>(c);
  }
  f.foreign = a.number("foreign", 0, 1);
  context.retired(element, "slip", "leave it out: what nobody can mistake has no look-alike; pairs that deceive get <alike values=\"...\" rate=\"...\"/>");
  f.method = a.choice("method", {"look", "measure", "read", "open", "drive"}, "look");
  f.tool = a.text_or("tool", "");
  f.unit = a.choice("unit", {"mm", "in", "cc", "cu-in", "kg", "lb", "V", "none"}, "");
  f.cautions = context.references(a, "caution", context.cautions);
  f.components = component_words(a, "component", {});
  f.applies = context.scope(a);
  const FeatureIndex index{context.features.add(f.id, f.place, context.diagnostics)};
  const std::vector<Element> own = element.children();
  std::vector<Element> lines = own;
  for (const Element& add : context.additions) {
    if (add.attribute("feature") != f.id) continue;
    const std::vector<Element> more = add.children();
    lines.insert(lines.end(), more.begin(), more.end());
  }
  read_values(context, lines, f);
  read_elsewhere(context, element, index, f);
  for (std::size_t i = 0; i < lines.size(); ++i) read_line(context, lines[i], index, f, i >= own.size());
  if (f.ask.empty()) f.ask = f.name + "?";
  context.pack.features.push_back(std::move(f));
}

void read_assembly_change(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_override(change_attributes("assembly")));
  check_override(a);
  LaterChange c = read_change(context, a, 0.05, 0.9);
  c.assembly = context.reference(a, "assembly", context.assemblies, true);
  bool empty = true;
  for (const Element& child : element.children()) {
    if (child.name() != "sets") {
      unknown_element(child, {"sets"}, context.diagnostics);
      continue;
    }
    empty = false;
    const Attributes s(child, context.diagnostics, {"feature", "value"});
    const auto feature = context.reference(s, "feature", context.features, true);
    if (!feature) continue;
    const auto value = context.value_of(FeatureIndex{*feature}, s.text("value"), child.place("value"));
    if (!value) continue;
    const auto& of_feature = context.pack.features[*feature].assembly;
    const bool misread = !of_feature && context.diagnostics.has_errors();  // the feature's own assembly may be the word at fault
    if (c.assembly && of_feature != c.assembly && !misread) {
      context.diagnostics.error(child.place("feature"), "feature '" + context.pack.features[*feature].id + "' is not in the assembly that this changes",
                                "give the feature assembly=\"" + context.pack.assemblies[*c.assembly].id + "\", or leave it out here");
    }
    c.sets.push_back({FeatureIndex{*feature}, *value});
  }
  if (empty) context.diagnostics.error(c.place, "this later change sets nothing", "write <sets feature=\"...\" value=\"...\"/> inside");
  context.pack.later_changes.push_back(std::move(c));
}

void read_conversion(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_override(with_scope({"id", "name", "from", "share", "reversible", "hours", "source"})));
  check_override(a);
  if (!a.has("share")) a.text("share");
  Conversion c = read_named<Conversion>(context, a, context.conversions, 0.01, 0.9);
  for (const Element& child : element.children()) {
    if (child.name() != "sets") {
      unknown_element(child, {"sets"}, context.diagnostics);
      continue;
    }
    const Attributes s(child, context.diagnostics, {"feature", "value", "surely"});
    const auto feature = context.reference(s, "feature", context.features, true);
    if (!feature) continue;
    const auto value = context.value_of(FeatureIndex{*feature}, s.text("value"), child.place("value"));
    if (std::any_of(c.sets.begin(), c.sets.end(), [&](const auto& x) { return x.feature == *feature; })) context.diagnostics.error(child.place("feature"), "this conversion sets feature '" + context.pack.features[*feature].id + "' twice", "keep one");
    if (value) c.sets.push_back({FeatureIndex{*feature}, *value, s.number("surely", 0.01, 1).value_or(0.9)});
  }
  if (c.sets.empty()) context.diagnostics.error(c.place, "this conversion sets nothing", "write <sets feature=\"...\" value=\"...\"/> inside");
  context.pack.conversions.push_back(std::move(c));
}

}  // namespace exworks
