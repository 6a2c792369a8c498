#include "base/text.hpp"
#include "pack/reader_context.hpp"

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

Fact read_fact(ReaderContext& context, const Element& element, std::size_t feature) {
  const Attributes a(element, context.diagnostics,
                     with_scope({"value", "from", "to", "from-number", "to-number", "fitted", "share", "source", "disputed"}));
  Fact f;
  f.place = element.place();
  f.value = context.value_of(feature, a.text("value"), element.place("value")).value_or(0);
  f.scope = context.scope(a);
  f.from = a.edge("from");
  f.to = a.edge("to");
  f.from_number = a.integer("from-number", 0, 999'999'999'999);
  f.to_number = a.integer("to-number", 0, 999'999'999'999);
  const std::string fitted = a.choice("fitted", {"standard", "option", "dealer"}, "standard");
  f.fitted = fitted == "option" ? Fitted::option : fitted == "dealer" ? Fitted::dealer : Fitted::standard;
  f.share = a.number("share", 0.0001, 1);
  f.sources = context.cited(a, true);
  f.disputed = a.yes_no("disputed", false);
  f.note = element.text();
  if (f.fitted != Fitted::standard && !f.share) {
    context.diagnostics.error(f.place, "an '" + fitted + "' fact needs a share", "write share=\"0.2\" for one vehicle in five");
  }
  if ((f.from_number && !f.from) || (f.to_number && !f.to)) {
    context.diagnostics.error(f.place, "a changeover by number needs its date too", "write from=/to= as well, as a span when the month isn't known");
  }
  if (f.from && f.to && !f.from->open && !f.to->open && f.to->last < f.from->first) {
    context.diagnostics.error(element.place("to"), "this fact ends (" + to_words(*f.to) + ") before it begins (" + to_words(*f.from) + ")", "swap or correct the dates");
  }
  return f;
}

/// What both kinds of later change have; `own` is the attribute that says what it changes.
Attributes change_attributes(ReaderContext& context, const Element& element, std::string_view own) {
  return Attributes(element, context.diagnostics, with_scope({"id", "name", "from", "share", "reversible", "hours", "source", own}));
}

LaterChange read_change(ReaderContext& context, const Attributes& a, double default_share, double top_share) {
  const Element& element = a.element();
  LaterChange c;
  c.id = a.id();
  c.name = a.text("name");
  c.spot = element.text();
  c.from = a.edge("from");
  c.share = a.number("share", 0.0001, top_share).value_or(default_share);
  c.hours = a.number("hours", 0, 10000).value_or(0);
  c.reversible = a.choice("reversible", {"yes", "no", "partly"}, "yes");
  c.scope = context.scope(a);
  c.sources = context.cited(a, true);
  c.place = element.place();
  context.later_changes.add(c.id, c.place, context.diagnostics);
  return c;
}

void read_values(ReaderContext& context, const Element& element, Feature& feature) {
  context.values.emplace_back("value");
  Ids& ids = context.values.back();
  for (const Element& child : element.children()) {
    if (child.name() != "value") continue;
    Value v = read_value(context, child, feature);
    ids.add(v.id, v.place, context.diagnostics);
    feature.values.push_back(std::move(v));
  }
  std::size_t next = 0;
  for (const Element& child : element.children()) {
    if (child.name() != "value") continue;
    const auto looks = child.attribute("looks-like");
    Value& v = feature.values[next++];
    if (!looks) continue;
    for (const std::string& word : split_words(*looks)) {
      if (const auto i = ids.resolve(word, child.place("looks-like"), context.diagnostics)) v.looks_like.push_back(*i);
    }
  }
  if (feature.values.empty()) context.diagnostics.error(feature.place, "feature '" + feature.id + "' has no values", "write at least one value");
}

}  // namespace

void read_feature(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics,
                     with_scope({"id", "name", "place", "assembly", "weight", "minutes", "altered", "slip", "method", "tool", "unit", "caution", "component"}));
  Feature f;
  f.place = element.place();
  f.id = a.id();
  f.name = a.text("name");
  f.standing_place = context.reference(a, "place", context.places, true).value_or(0);
  f.assembly = context.reference(a, "assembly", context.assemblies, false);
  f.weight = static_cast<int>(a.integer("weight", 0, 10).value_or(1));
  f.minutes = a.number("minutes", 0.1, 600).value_or(1);
  f.altered = a.number("altered", 0.0001, 0.9);
  f.slip = a.number("slip", 0.0001, 0.5);
  f.method = a.choice("method", {"look", "measure", "read", "open", "drive"}, "look");
  f.tool = a.text_or("tool", "");
  f.unit = a.choice("unit", {"mm", "in", "cc", "cu-in", "kg", "lb", "V", "none"}, "");
  f.cautions = context.references(a, "caution", context.cautions);
  f.components = context.components(a);
  f.applies = context.scope(a);
  const std::size_t index = context.features.add(f.id, f.place, context.diagnostics);
  read_values(context, element, f);
  for (const Element& child : element.children()) {
    const std::string name = child.name();
    if (name == "ask") {
      f.ask = child.text();
    } else if (name == "fact") {
      f.facts.push_back(read_fact(context, child, index));
    } else if (name == "legal") {
      if (auto fact = read_legal(context, child, index)) f.facts.push_back(std::move(*fact));
    } else if (name == "later") {
      const Attributes ca = change_attributes(context, child, "value");
      LaterChange c = read_change(context, ca, 1, 1e6);
      c.feature = index;
      if (const auto v = context.value_of(index, ca.text("value"), child.place("value"))) c.sets.emplace_back(index, *v);
      context.pack.later_changes.push_back(std::move(c));
    } else if (name != "value") {
      unknown_element(child, {"ask", "value", "fact", "legal", "later"}, context.diagnostics);
    }
  }
  if (f.ask.empty()) f.ask = f.name + "?";
  context.pack.features.push_back(std::move(f));
}

void read_assembly_change(ReaderContext& context, const Element& element) {
  const Attributes a = change_attributes(context, element, "assembly");
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
    const auto value = context.value_of(*feature, s.text("value"), child.place("value"));
    if (!value) continue;
    const auto& of_feature = context.pack.features[*feature].assembly;
    const bool misread = !of_feature && context.diagnostics.has_errors();  // the feature's own assembly may be the word at fault
    if (c.assembly && of_feature != c.assembly && !misread) {
      context.diagnostics.error(child.place("feature"), "feature '" + context.pack.features[*feature].id + "' is not in the assembly that this changes",
                                "give the feature assembly=\"" + context.pack.assemblies[*c.assembly].id + "\", or leave it out here");
    }
    c.sets.emplace_back(*feature, *value);
  }
  if (empty) context.diagnostics.error(c.place, "this later change sets nothing", "write <sets feature=\"...\" value=\"...\"/> inside");
  context.pack.later_changes.push_back(std::move(c));
}

}  // namespace exworks
