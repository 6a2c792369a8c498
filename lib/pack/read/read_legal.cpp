#include <algorithm>
#include <filesystem>

#include "pack/read/reader_context.hpp"

namespace exworks {

namespace {

std::optional<RequirementFiles::Found> find_requirement(ReaderContext& context, const Attributes& a) {
  const std::string id = a.text("requirement");
  if (id.empty()) return std::nullopt;
  const auto found = context.requirement_files().find(id, context.diagnostics);
  if (found) return found;
  Ids known("requirement");
  for (const std::string& one : context.requirement_files().ids()) known.add(one, {}, context.diagnostics);
  known.resolve(id, a.element().place("requirement"), context.diagnostics);
  return std::nullopt;
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

/// Those of the folder `market` beside the pack, then of the one beside each pack that it extends.
RequirementFiles& ReaderContext::requirement_files() {
  if (law) return *law;
  namespace fs = std::filesystem;
  std::vector<fs::path> folders{fs::path(pack.folder) / ".." / "market"};
  for (const BasePack& base : pack.extends) folders.push_back(fs::path(base.folder) / ".." / "market");
  std::vector<std::string> countries;
  for (const Market& m : pack.markets) countries.push_back(m.country);
  return law.emplace(std::move(folders), std::move(countries));
}

std::optional<Fact> read_legal(ReaderContext& context, const Element& element, FeatureIndex feature) {
  const Attributes a(element, context.diagnostics, {"requirement", "value"});
  const auto value = context.value_of(feature, a.text("value"), element.place("value"));
  const auto found = find_requirement(context, a);
  if (!found || !value) return std::nullopt;
  const auto [market, r] = *found;
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
