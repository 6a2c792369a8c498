#include <algorithm>

#include "base/text.hpp"
#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

Fact read_fact(ReaderContext& context, const Attributes& a, FeatureIndex feature) {
  const Element& element = a.element();
  Fact f;
  f.place = element.place();
  if (a.has("id")) f.name = a.id();
  f.value = context.value_of(feature, a.text("value"), element.place("value")).value_or(ValueIndex{});
  f.scope = context.scope(a);
  f.from = a.edge("from");
  f.to = a.edge("to");
  f.from_number = a.integer("from-number", 0, 999'999'999'999);
  f.to_number = a.integer("to-number", 0, 999'999'999'999);
  f.fitted = a.one_of("fitted", Fitted::standard);
  f.share = a.number("share", 0.0001, 1);
  f.sources = context.cited(a, true);
  f.disputed = a.yes_no("disputed", false);
  f.note = element.text();
  if (f.fitted != Fitted::standard && !f.share) {
    context.diagnostics.error(f.place, "an '" + word(f.fitted) + "' fact needs a share", "write share=\"0.2\" for one vehicle in five");
  }
  if ((f.from_number && !f.from) || (f.to_number && !f.to)) {
    context.diagnostics.error(f.place, "a changeover by number needs its date too", "write from=/to= as well, as a span when the month isn't known");
  }
  if (f.from && f.to && !f.from->open && !f.to->open && f.to->last < f.from->first) {
    context.diagnostics.error(element.place("to"), "this fact ends (" + to_words(*f.to) + ") before it begins (" + to_words(*f.from) + ")", "swap or correct the dates");
  }
  return f;
}

std::vector<std::string> names_of(const std::vector<Fact>& facts) {
  std::vector<std::string> names;
  for (const Fact& f : facts) names.push_back(f.name);
  return names;
}

/// A fact without an id is called after its value and the month in which it begins, so that it keeps its name when others
/// are added and loses it when its own date is corrected: then whoever overrides it should look again.
void name_fact(ReaderContext& context, Fact& fact, const std::vector<Fact>& others, const std::string& value) {
  const std::vector<std::string> taken = names_of(others);
  const auto known = [&](const std::string& name) { return std::find(taken.begin(), taken.end(), name) != taken.end(); };
  if (!fact.name.empty()) {
    if (known(fact.name)) context.diagnostics.error(fact.place, "fact '" + fact.name + "' of this feature is given twice", "rename one");
    return;
  }
  const std::string stem = fact.from && !fact.from->open ? value + "@" + to_iso(fact.from->first) : value;
  fact.name = stem;
  for (int n = 2; known(fact.name); ++n) fact.name = stem + "#" + std::to_string(n);
}

std::string value_id(const Feature& feature, const Fact& fact) { return fact.value < feature.values.size() ? feature.values[fact.value].id : "other"; }

/// Puts the fact where the one stood that it overrides; reports it when there is none.
void override_fact(ReaderContext& context, Feature& feature, Fact fact, const Attributes& a) {
  const std::string old = a.text("overrides"), reason = a.text_or("reason", "");
  const std::vector<std::string> known = names_of(feature.facts);
  const auto at = std::find(known.begin(), known.end(), old);
  if (at == known.end()) {
    if (!old.empty()) context.diagnostics.error(a.element().place("overrides"), "feature '" + feature.id + "' has no fact '" + old + "' to override", "its facts are " + join_and(known));
    return;
  }
  const BasePack& base = context.pack.extends.front();
  fact.note = "In place of what " + base.id + " " + base.version + " says (" + old + "): " + reason + (reason.ends_with('.') ? "" : ".") + (fact.note.empty() ? "" : " " + fact.note);
  const auto index = static_cast<std::size_t>(at - known.begin());
  feature.facts.erase(feature.facts.begin() + static_cast<std::ptrdiff_t>(index));
  name_fact(context, fact, feature.facts, value_id(feature, fact));
  feature.facts.insert(feature.facts.begin() + static_cast<std::ptrdiff_t>(index), std::move(fact));
}

const std::vector<std::string_view> fact_attributes{"id", "value", "from", "to", "from-number", "to-number", "fitted", "share", "source", "disputed"};

}  // namespace

void read_fact_of(ReaderContext& context, const Element& element, FeatureIndex index, Feature& feature, bool added) {
  const Attributes a(element, context.diagnostics, with_scope(added ? with_override(fact_attributes) : fact_attributes));
  if (added) check_override(a);
  Fact fact = read_fact(context, a, index);
  if (added && a.has("overrides")) return override_fact(context, feature, std::move(fact), a);
  name_fact(context, fact, feature.facts, value_id(feature, fact));
  feature.facts.push_back(std::move(fact));
}

void check_additions(ReaderContext& context) {
  for (const Element& add : context.additions) {
    const Attributes a(add, context.diagnostics, {"feature"});
    context.reference(a, "feature", context.features, true);
    if (add.children().empty()) context.diagnostics.error(add.place(), "this adds nothing", "write value, fact, legal or later lines inside");
  }
}

}  // namespace exworks
