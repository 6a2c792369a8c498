#include <algorithm>
#include <filesystem>

#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

/// Those of the folder `market` beside the pack, then of the one beside each pack that it extends.
std::vector<Requirements> requirements_beside(ReaderContext& context) {
  namespace fs = std::filesystem;
  std::vector<std::string> packs{context.pack.folder};
  for (const BasePack& base : context.pack.extends) packs.push_back(base.folder);
  std::vector<Requirements> out;
  std::vector<fs::path> read;
  for (const std::string& pack : packs) {
    const fs::path folder = fs::path(pack) / ".." / "market";
    std::error_code ignored;
    if (!fs::is_directory(folder, ignored)) continue;
    const fs::path resolved = fs::canonical(folder, ignored);
    if (std::find(read.begin(), read.end(), resolved) != read.end()) continue;
    read.push_back(resolved);
    for (Requirements& market : read_requirements_folder(folder, context.diagnostics)) out.push_back(std::move(market));
  }
  return out;
}

const Requirement* find_requirement(ReaderContext& context, const Attributes& a, const Requirements** market) {
  if (!context.requirements) context.requirements = requirements_beside(context);
  const std::string id = a.text("requirement");
  Ids known("requirement");
  for (const Requirements& m : *context.requirements) {
    for (const Requirement& r : m.rows) {
      if (r.id == id) {
        *market = &m;
        return &r;
      }
      if (!known.find(r.id)) known.add(r.id, r.place, context.diagnostics);
    }
  }
  if (!id.empty()) known.resolve(id, a.element().place("requirement"), context.diagnostics);
  return nullptr;
}

/// The requirement's sources, taken into the pack's own list once.
std::vector<std::size_t> adopt_sources(ReaderContext& context, const Requirements& market, const Requirement& r) {
  std::vector<std::size_t> out;
  for (std::size_t s : r.sources) {
    Source source = market.sources[s];
    source.cited = true;
    source.id = market.id + "." + source.id;
    auto at = context.sources.find(source.id);
    if (!at) {
      at = context.sources.add(source.id, source.place, context.diagnostics);
      context.pack.sources.push_back(std::move(source));
    }
    out.push_back(*at);
  }
  return out;
}

}  // namespace

std::optional<Fact> read_legal(ReaderContext& context, const Element& element, std::size_t feature) {
  const Attributes a(element, context.diagnostics, {"requirement", "value"});
  const auto value = context.value_of(feature, a.text("value"), element.place("value"));
  const Requirements* market = nullptr;
  const Requirement* r = find_requirement(context, a, &market);
  if (r == nullptr || !value) return std::nullopt;
  if (r->strength != Strength::must || r->counts_in_use || !r->from) {
    context.diagnostics.error(element.place("requirement"), "requirement '" + r->id + "' says nothing of what vehicles had when new",
                              "name one whose strength is must, with a date from which it bound new vehicles");
    return std::nullopt;
  }
  Fact fact;
  fact.value = *value;
  fact.place = element.place();
  fact.name = r->id;
  fact.law = LegalBasis{r->id, market->name, r->feature};
  fact.note = r->text;
  fact.disputed = r->certainty == Certainty::conflicting;
  fact.sources = adopt_sources(context, *market, *r);
  const BoundMonths months = bound_months(*r);
  fact.from = months.from;
  fact.to = months.to;
  for (std::size_t m = 0; m < context.pack.markets.size(); ++m) fact.scope.markets.set(m, context.pack.markets[m].country == market->country);
  for (std::size_t p = 0; p < context.pack.plants.size(); ++p) fact.scope.plants.set(p);
  for (std::size_t v = 0; v < context.pack.variants.size(); ++v) {
    const std::string& body_class = context.pack.bodies[context.pack.variants[v].body].vehicle_class;
    fact.scope.variants.set(v, std::find(r->classes.begin(), r->classes.end(), body_class) != r->classes.end());
  }
  if (fact.scope.markets.none() || fact.scope.variants.none()) {
    context.diagnostics.error(element.place("requirement"), "requirement '" + r->id + "' binds no vehicle of this pack",
                              "it is of " + market->country + " and binds other classes; check country= of the markets and class= of the bodies");
    return std::nullopt;
  }
  return fact;
}

}  // namespace exworks
