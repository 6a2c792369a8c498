#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.hpp"
#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

/// Registers an axis member; past the limit of the bit sets it is reported and dropped.
template <class Item>
void add_to_axis(ReaderContext& context, Ids& ids, std::vector<Item>& items, Item item) {
  if (items.size() >= axis_limit) {
    context.diagnostics.error(item.place, "more than 256 of '" + ids.kind() + "'", "merge those that no fact tells apart");
    return;
  }
  ids.add(item.id, item.place, context.diagnostics);
  items.push_back(std::move(item));
}

}  // namespace

void read_source(ReaderContext& context, const Element& element) {
  Source s = read_source_line(element, context.diagnostics);
  context.sources.add(s.id, s.place, context.diagnostics);
  context.pack.sources.push_back(std::move(s));
}

void read_place(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name"});
  StandingPlace p{a.id(), a.text("name"), element.place()};
  context.places.add(p.id, p.place, context.diagnostics);
  context.pack.places.push_back(std::move(p));
}

void read_caution(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name", "always", "source"});
  Caution c;
  c.id = a.id();
  c.name = a.text("name");
  c.text = element.text();
  c.always = a.yes_no("always", false);
  c.sources = context.cited(a, true);
  c.place = element.place();
  if (c.text.empty()) context.diagnostics.error(c.place, "caution '" + c.id + "' says nothing", "write its text between the tags");
  context.cautions.add(c.id, c.place, context.diagnostics);
  context.pack.cautions.push_back(std::move(c));
}

void read_term(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"word", "en-US", "en-AU"});
  const std::string word = a.text("word");
  context.pack.terms.push_back({word, a.text_or("en-US", word), a.text_or("en-AU", word), element.place()});
}

namespace {

/// Numbers separated by spaces; each within [low, high]. Reported, and nothing returned, when they are not `count` (any number for 0).
std::vector<double> numbers_of(const Attributes& a, std::string_view name, std::size_t count, double low, double high) {
  std::vector<double> out;
  const auto text = a.element().attribute(name);
  if (!text) return out;
  for (const std::string& word : split_words(*text)) {
    const auto x = parse_number(word);
    if (x && *x >= low && *x <= high) {
      out.push_back(*x);
      continue;
    }
    a.diagnostics().error(a.element().place(name), "'" + word + "' can't be in '" + std::string(name) + "'", "write numbers like 0.02, with spaces between them");
    return {};
  }
  if (out.empty() || (count > 0 && out.size() != count)) {
    a.diagnostics().error(a.element().place(name), "'" + std::string(name) + "' has " + std::to_string(out.size()) + " numbers", count > 0 ? "write " + std::to_string(count) : "write one at least");
    return {};
  }
  return out;
}

void read_levels(const Attributes& a, Rates& r) {
  const std::vector<double> levels = numbers_of(a, "alteration-levels", 0, 1e-3, 1e3), shares = numbers_of(a, "alteration-shares", 0, 1e-6, 1);
  if (levels.empty() && shares.empty()) return;
  double sum = 0;
  for (double s : shares) sum += s;
  if (levels.size() == shares.size() && std::abs(sum - 1) < 1e-6) {
    r.alteration = levels;
    r.alteration_share = shares;
    return;
  }
  a.diagnostics().error(a.element().place(a.has("alteration-shares") ? "alteration-shares" : "alteration-levels"), "levels of alteration and their shares don't fit together",
                        "write as many shares as levels, adding up to 1");
}

void read_dates(const Attributes& a, Rates& r) {
  const std::vector<double> months = numbers_of(a, "edge-months", edge_backings, 0, 60);
  std::transform(months.begin(), months.end(), r.edge_months.begin(), [](double m) { return static_cast<int>(std::lround(m)); });
  r.wrong_year = a.number("wrong-year", 0, 0.9).value_or(r.wrong_year);
  const std::vector<double> offsets = numbers_of(a, "offset-shares", 0, 0, 1);
  if (offsets.empty()) return;
  const double sum = std::accumulate(offsets.begin(), offsets.end(), 0.0);
  if (offsets.size() % 2 == 1 && std::abs(sum - 1) < 1e-6) {
    r.offset_share = offsets;
    return;
  }
  a.diagnostics().error(a.element().place("offset-shares"), "these shares don't say by how many months the dates may be off", "write an odd number of them, the middle one for no offset, adding up to 1");
}

}  // namespace

void read_rates(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics,
                     {"confusion", "wrong-line", "not-recognised", "taken-for-ours", "altered", "replaced", "number-error", "edge-months", "wrong-year", "offset-shares", "consumable", "accessory", "upgrade", "trim", "panel", "structure", "plate",
                      "known", "foreign", "later-weight", "unnamed-outside", "outside-other", "relative", "alteration-levels", "alteration-shares", "local", "sure", "probable", "guess", "look-alike", "unlisted", "source"});
  for (const char* old : {"sure", "probable", "guess", "look-alike"}) context.retired(element, old, "write confusion=, wrong-line= and not-recognised=, or leave it out");
  context.retired(element, "unlisted", "write known= and foreign=, or leave it out");
  context.cited(a, false);
  Rates& r = context.pack.rates;
  for (auto [name, rates] : {std::pair{"confusion", &r.confusion}, {"wrong-line", &r.wrong_line}, {"not-recognised", &r.not_recognised}, {"taken-for-ours", &r.taken_for_ours}, {"number-error", &r.number_error}}) {
    const std::vector<double> steps = numbers_of(a, name, 3, 0, 0.9);
    if (!steps.empty()) std::copy(steps.begin(), steps.end(), rates->begin());
  }
  const auto take = [&](std::string_view name, double& rate, double most = 0.9) { rate = a.number(name, 0.0001, most).value_or(rate); };
  take("altered", r.altered);
  take("replaced", r.replaced);
  for (std::size_t c = 0; c < change_classes; ++c) take(change_class_words[c], r.of_class[c]);
  take("known", r.known);
  take("foreign", r.foreign);
  take("later-weight", r.later_weight, 100);
  take("unnamed-outside", r.unnamed_outside);
  take("outside-other", r.outside_other);
  take("relative", r.relative, 1);
  take("local", r.local);
  read_levels(a, r);
  read_dates(a, r);
}

void read_share(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"market", "from", "to", "share", "source"});
  const auto market = context.reference(a, "market", context.markets, true);
  context.cited(a, false);
  const auto from = a.edge("from"), to = a.edge("to");
  for (const char* name : {"from", "to", "share"}) {
    if (!a.has(name)) a.text(name);
  }
  const auto share = a.number("share", 1e-6, 1e9);
  if (!market || !from || !to || !share) return;
  if (from->open || to->open || to->last < from->first) {
    context.diagnostics.error(element.place("to"), "this share has no span of months", "write from=\"1960-01\" to=\"1964-12\"");
    return;
  }
  auto& periods = context.pack.markets[*market].periods;
  for (const Market::Period& p : periods) {
    if (from->first <= p.last && p.first <= to->last) context.diagnostics.error(element.place("from"), "two shares of one market overlap", "end the first before the second begins");
  }
  periods.push_back({from->first, to->last, *share});
}

void read_market(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name", "country", "steering", "share"});
  Market m;
  m.id = a.id();
  m.name = a.text("name");
  m.country = a.text_or("country", "");
  m.steering = a.choice("steering", {"left", "right", "either"}, "either");
  m.share = a.number("share", 1e-6, 1e9).value_or(1);
  m.place = element.place();
  add_to_axis(context, context.markets, context.pack.markets, std::move(m));
}

void read_plant(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name", "country", "kit", "markets", "share", "from", "to", "source"});
  Plant p;
  p.id = a.id();
  p.name = a.text("name");
  p.country = a.text_or("country", "");
  p.kit = a.yes_no("kit", false);
  p.share = a.number("share", 1e-6, 1e9).value_or(1);
  p.markets = context.members(a, "markets", context.markets);
  p.from = a.edge("from");
  p.to = a.edge("to");
  context.cited(a, false);
  p.place = element.place();
  add_to_axis(context, context.plants, context.pack.plants, std::move(p));
}

void read_generation(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name"});
  add_to_axis(context, context.generations, context.pack.generations, Generation{a.id(), a.text("name"), element.place()});
}

void read_body(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name", "class"});
  Body body{a.id(), a.text("name"), a.choice("class", vehicle_classes(), "car"), element.place()};
  add_to_axis(context, context.bodies, context.pack.bodies, std::move(body));
}

void read_variant(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_override({"id", "name", "generation", "body", "markets", "plants", "from", "to", "units", "source"}));
  check_override(a);
  Variant v;
  v.id = a.id();
  v.name = a.text("name");
  v.generation = context.reference(a, "generation", context.generations, true).value_or(0);
  v.body = context.reference(a, "body", context.bodies, true).value_or(0);
  v.markets = context.members(a, "markets", context.markets);
  v.plants = context.members(a, "plants", context.plants);
  v.units = a.number("units", 1, 1e9);
  v.sources = context.cited(a, true);
  v.place = element.place();
  const Edge never{Month::of(1900, 1), Month::of(1900, 1)};
  const std::size_t errors = context.diagnostics.error_count();
  for (auto [name, edge] : {std::pair{"from", &v.from}, std::pair{"to", &v.to}}) {
    if (!a.has(name)) a.text(name);
    *edge = a.edge(name).value_or(never);
    if (edge->open) {
      context.diagnostics.error(element.place(name), "a variant's '" + std::string(name) + "' can't be open", "write the month, or a span such as [1950..1952]");
      *edge = never;
    }
  }
  if (v.to.last < v.from.first && context.diagnostics.error_count() == errors) context.diagnostics.error(element.place("to"), "variant '" + v.id + "' ends before it begins", "swap or correct the dates");
  add_to_axis(context, context.variants, context.pack.variants, std::move(v));
}

void read_volume(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, with_scope({"from", "to", "units", "source"}));
  Volume v;
  v.scope = context.scope(a);
  const Edge open{{}, {}, true};
  if (!a.has("units")) a.text("units");
  v.units = a.number("units", 1, 1e9).value_or(1);
  v.from = a.edge("from").value_or(open);
  v.to = a.edge("to").value_or(open);
  v.sources = context.cited(a, true);
  v.place = element.place();
  if (!v.from.open && !v.to.open && v.to.last < v.from.first) {
    context.diagnostics.error(element.place("to"), "this volume ends before it begins", "swap or correct the dates");
  }
  context.pack.volumes.push_back(std::move(v));
}

void read_assembly(ReaderContext& context, const Element& element) {
  const Attributes a(element, context.diagnostics, {"id", "name", "replaced", "hours", "reversible", "component"});
  Assembly s;
  s.id = a.id();
  s.name = a.text("name");
  s.replaced = a.number("replaced", 0.0001, 0.9);
  s.hours = a.number("hours", 0, 10000).value_or(0);
  s.reversible = a.one_of("reversible", Reversible::yes);
  s.components = component_words(a, "component", {});
  s.place = element.place();
  for (const Element& child : element.children()) {
    if (child.name() != "interchange") {
      unknown_element(child, {"interchange"}, context.diagnostics);
      continue;
    }
    const Attributes c(child, context.diagnostics, {"variants", "donors", "note", "source"});
    Interchange i;
    i.variants = context.members(c, "variants", context.variants);
    i.donors = c.has("donors") ? context.members(c, "donors", context.variants) : i.variants;
    i.note = c.text_or("note", child.text());
    context.cited(c, true);
    i.place = child.place();
    s.interchange.push_back(std::move(i));
  }
  context.assemblies.add(s.id, s.place, context.diagnostics);
  context.pack.assemblies.push_back(std::move(s));
}

}  // namespace exworks
