#include <algorithm>
#include <cmath>

#include "oracle_pack.hpp"

/// Packs and inspections by chance: small, but with every construct that the model speaks of.
namespace exworks::test::oracle {

std::uint64_t Dice::next() {
  std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31U);
}

double Dice::share(double low, double high) {
  return between(static_cast<int>(std::lround(low * 100)), static_cast<int>(std::lround(high * 100))) / 100.0;
}

std::vector<std::size_t> Dice::some(std::size_t n, std::size_t count) {
  std::vector<std::size_t> all(n);
  for (std::size_t i = 0; i < n; ++i) all[i] = i;
  for (std::size_t i = 0; i < count; ++i) std::swap(all[i], all[i + below(n - i)]);
  all.resize(count);
  std::sort(all.begin(), all.end());
  return all;
}

namespace {

constexpr int year_1952 = 24;  ///< the first month in which anything is built
constexpr int last_month = year_1952 + 26;

std::vector<bool> subset(Dice& dice, std::size_t n) {
  std::vector<bool> out(n, false);
  for (const std::size_t i : dice.some(n, 1 + dice.below(n))) out[i] = true;
  return out;
}

std::vector<bool> only(std::size_t n, std::size_t i) {
  std::vector<bool> out(n, false);
  out[i] = true;
  return out;
}

/// The axes of a scope by number, so that chance can choose one.
std::vector<bool>& axis(Scope& scope, std::size_t i) {
  std::vector<bool>* const axes[] = {&scope.generations, &scope.variants, &scope.bodies, &scope.markets, &scope.plants};
  return *axes[i];
}

std::size_t size_of_axis(const SmallPack& pack, std::size_t i) {
  const std::size_t sizes[] = {pack.generations, pack.variants.size(), pack.bodies, pack.markets.size(), pack.plants.size()};
  return sizes[i];
}

Scope random_scope(const SmallPack& pack, Dice& dice, double everything) {
  Scope out;
  if (dice.chance(everything)) return out;
  const std::size_t a = dice.below(5);
  axis(out, a) = subset(dice, size_of_axis(pack, a));
  const std::size_t b = dice.below(5);
  if (b != a && dice.chance(0.2)) axis(out, b) = subset(dice, size_of_axis(pack, b));
  return out;
}

/// An edge that begins in this month: plain, a window, or rarely a whole year.
Window random_edge(Dice& dice, int first) {
  if (dice.chance(0.1)) return {first / 12 * 12, first / 12 * 12 + 11};
  return {first, dice.chance(0.5) ? first : first + dice.between(1, 7)};
}

void add_axes(SmallPack& pack, Dice& dice) {
  pack.bodies = 1 + dice.below(2);
  pack.markets.resize(1 + dice.below(3));
  for (Market& market : pack.markets) market.share = dice.between(1, 6);
  pack.plants.resize(1 + dice.below(2));
  for (Plant& plant : pack.plants) {
    plant.share = dice.between(1, 4);
    plant.markets = subset(dice, pack.markets.size());
  }
  pack.plants[0].markets.assign(pack.markets.size(), true);  // the first plant is always there, so that every vehicle has one
  if (pack.plants.size() > 1 && dice.chance(0.6)) {
    const int opened = year_1952 + dice.between(0, 12);
    pack.plants[1].at_work = Window{opened, opened + dice.between(3, 12)};
  }
  const std::size_t variants = 2 + dice.below(3);
  for (std::size_t v = 0; v < variants; ++v) {
    Variant variant;
    variant.generation = v < 2 ? v : dice.below(2);
    variant.body = v < pack.bodies ? v : dice.below(pack.bodies);
    variant.markets = subset(dice, pack.markets.size());
    variant.plants = subset(dice, pack.plants.size());
    variant.plants[0] = true;
    variant.built.first = year_1952 + dice.between(0, 8);
    variant.built.last = variant.built.first + dice.between(5, 17);
    if (dice.chance(0.2)) variant.doubt = dice.between(1, 4);
    pack.variants.push_back(variant);
  }
}

/// Units, no units, or counts of a scope and period.
void add_volumes(SmallPack& pack, Dice& dice) {
  const Window& built = pack.variants[0].built;
  if (dice.chance(0.1)) return;
  if (dice.chance(0.2)) {
    const int cut = dice.between(built.first, built.last - 1);
    pack.volumes = {{{}, {year_1952, cut}, static_cast<double>(dice.between(1, 9) * 100)}, {{}, {cut + 1, last_month}, 500}};
    return;
  }
  for (Variant& variant : pack.variants) variant.units = dice.between(1, 40) * 100;
  if (!dice.chance(0.3)) return;
  Volume volume;
  volume.scope.variants = only(pack.variants.size(), 0);
  volume.months = {built.first + 1, built.first + dice.between(1, 4)};
  volume.units = dice.between(1, 20) * 100;
  pack.volumes.push_back(volume);
}

void add_assemblies(SmallPack& pack, Dice& dice) {
  pack.assemblies.resize(1 + dice.below(2));
  for (Assembly& assembly : pack.assemblies) {
    if (dice.chance(0.7)) assembly.replaced = dice.share(0.05, 0.4);
    if (dice.chance(0.4)) continue;
    // Each variant stands in one row at most; those in none can take a donor of any.
    std::vector<Interchange> rows(1 + dice.below(2), {std::vector<bool>(pack.variants.size(), false), {}});
    for (std::size_t v = 0; v < pack.variants.size(); ++v) {
      const std::size_t row = dice.below(rows.size() + 1);
      if (row < rows.size()) rows[row].variants[v] = true;
    }
    for (Interchange& row : rows) {
      row.donors = subset(dice, pack.variants.size());
      if (std::find(row.variants.begin(), row.variants.end(), true) != row.variants.end()) assembly.rows.push_back(row);
    }
  }
}

/// What the works fitted standard within one scope: nothing known, one value, values in turn, side by side, or one before or
/// beside those.
void add_standard(Feature& feature, const Scope& scope, Dice& dice) {
  const std::size_t kind = dice.below(10);
  if (kind == 0) return;
  if (kind <= 3) {
    const bool dots = dice.chance(0.2);
    const std::size_t value = dice.chance(0.1) ? feature.values : dice.below(feature.values);
    feature.facts.push_back({value, scope, {}, {}, "standard", {}, dots});
    return;
  }
  std::optional<Window> begin;
  const bool one_as_well = kind == 4;
  if (one_as_well) {
    if (dice.chance(0.7)) begin = random_edge(dice, year_1952 + dice.between(2, 12));
    feature.facts.push_back({dice.below(feature.values), scope, {}, begin, "standard", {}, false});
  }
  if (kind <= 6) {
    for (const std::size_t v : dice.some(feature.values, 2 + dice.below(feature.values - 1))) {
      Fact fact{v, scope, begin, {}, "standard", dice.share(0.1, one_as_well ? 0.22 : 0.9), false};
      if (!begin && dice.chance(0.3)) fact.from = random_edge(dice, year_1952 + dice.between(0, 14));
      if (!begin && dice.chance(0.3))
        fact.to = random_edge(dice, (fact.from ? fact.from->last + 1 : year_1952) + dice.between(0, 10));
      feature.facts.push_back(fact);
    }
    return;
  }
  const std::vector<std::size_t> values = dice.some(feature.values, std::min<std::size_t>(feature.values, 2 + dice.below(2)));
  std::optional<Window> edge;
  const std::size_t gap = dice.chance(0.25) ? dice.below(values.size()) : values.size();  // a stretch that no source speaks of
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::optional<Window> from = edge;
    edge.reset();
    if (i + 1 < values.size())
      edge = random_edge(dice, (from ? (dice.chance(0.3) ? from->first : from->last) : year_1952) + dice.between(1, 8));
    if (from && edge && (edge->first <= from->first || edge->last <= from->last)) edge = Window{from->last + 1, from->last + 3};
    if (i != gap) feature.facts.push_back({values[i], scope, from, edge, "standard", {}, false});
  }
}

void add_facts(const SmallPack& pack, Feature& feature, Dice& dice) {
  const std::size_t a = dice.below(6);
  if (a == 5) {
    add_standard(feature, {}, dice);
  } else {
    for (std::size_t i = 0; i < size_of_axis(pack, a); ++i) {
      Scope scope;
      axis(scope, a) = only(size_of_axis(pack, a), i);
      const std::size_t b = (a + 1 + dice.below(4)) % 5;
      if (!dice.chance(0.25)) {
        add_standard(feature, scope, dice);
        continue;
      }
      for (std::size_t j = 0; j < size_of_axis(pack, b); ++j) {
        axis(scope, b) = only(size_of_axis(pack, b), j);
        add_standard(feature, scope, dice);
      }
    }
  }
  for (std::size_t i = dice.below(3); i > 0 && !feature.facts.empty(); --i) {
    Fact fact{dice.below(feature.values),
              feature.facts[dice.below(feature.facts.size())].scope,
              {},
              {},
              "option",
              dice.share(0.05, 0.45),
              false};
    if (dice.chance(0.3)) fact.fitted = "dealer";
    if (dice.chance(0.4)) fact.from = random_edge(dice, year_1952 + dice.between(0, 10));
    if (dice.chance(0.4)) fact.to = random_edge(dice, (fact.from ? fact.from->last + 1 : year_1952) + dice.between(2, 12));
    feature.facts.push_back(fact);
  }
}

void add_feature(SmallPack& pack, Dice& dice, std::optional<std::size_t> assembly) {
  Feature feature;
  feature.values = 2 + dice.below(3);
  feature.weight = dice.between(0, 10);
  feature.assembly = assembly;
  if (dice.chance(0.5)) feature.altered = dice.share(0.01, 0.3);
  if (dice.chance(0.2)) feature.slip = dice.between(1, 10) / 1000.0;
  if (dice.chance(0.3)) {
    const std::vector<std::size_t> pair = dice.some(feature.values, 2);
    feature.looks_like.emplace_back(pair[0], pair[1]);
    if (dice.chance(0.5)) feature.looks_like.emplace_back(pair[1], pair[0]);
  }
  feature.applies = random_scope(pack, dice, 0.75);
  if (feature.applies != Scope{} && dice.chance(0.5)) feature.elsewhere = dice.below(feature.values + 1);
  add_facts(pack, feature, dice);
  for (std::size_t i = dice.below(4); i > 0; --i) {
    Change change{dice.below(feature.values + 1), random_scope(pack, dice, 0.5), {}, static_cast<double>(dice.between(1, 5))};
    if (dice.chance(0.6)) change.from = random_edge(dice, last_month + dice.between(0, 20));
    feature.changes.push_back(change);
  }
  pack.features.push_back(feature);
}

void add_outsides(SmallPack& pack, Dice& dice) {
  for (std::size_t i = dice.below(3); i > 0; --i) {
    Outside outside;
    outside.assembly = dice.below(pack.assemblies.size());
    outside.share = dice.share(0.05, 0.4);
    outside.scope = random_scope(pack, dice, 0.6);
    if (dice.chance(0.6)) outside.from = random_edge(dice, last_month + dice.between(0, 20));
    for (std::size_t f = 0; f < pack.features.size(); ++f) {
      const Feature& feature = pack.features[f];
      if (feature.assembly == outside.assembly && dice.chance(0.7)) outside.sets.emplace_back(f, dice.below(feature.values + 1));
    }
    if (!outside.sets.empty()) pack.outsides.push_back(outside);
  }
}

}  // namespace

SmallPack random_pack(Dice& dice) {
  SmallPack pack;
  add_axes(pack, dice);
  add_volumes(pack, dice);
  add_assemblies(pack, dice);
  if (dice.chance(0.5))
    pack.rates = {dice.share(0.01, 0.05), 0.1, dice.share(0.2, 0.5), static_cast<double>(dice.between(1, 5)), 0.07, 0.3, 0.12};
  for (std::size_t a = 0; a < pack.assemblies.size(); ++a) {
    for (std::size_t i = 2 + dice.below(2); i > 0; --i) add_feature(pack, dice, a);
  }
  for (std::size_t i = 1 + dice.below(3); i > 0 && pack.features.size() < 7; --i) add_feature(pack, dice, std::nullopt);
  add_outsides(pack, dice);
  tidy(pack);
  return pack;
}

SmallPack long_pack(Dice& dice, std::size_t features, bool one_assembly) {
  SmallPack pack;
  pack.markets.resize(1);
  pack.plants = {{1, {true}, {}}};
  for (std::size_t v = 0; v < 2; ++v) pack.variants.push_back({v, 0, {true}, {true}, {year_1952, year_1952 + 5}, 1000});
  if (one_assembly) pack.assemblies.resize(1);
  for (std::size_t f = 0; f < features; ++f) add_feature(pack, dice, one_assembly ? std::optional<std::size_t>{0} : std::nullopt);
  tidy(pack);
  return pack;
}

Visit random_visit(const SmallPack& pack, Dice& dice, double share) {
  const char* const hows[] = {"seen", "seen", "read", "photo", "told"};
  const char* const sures[] = {"sure", "sure", "probable", "guess"};
  Visit out;
  if (dice.chance(0.8)) out.month = last_month + dice.between(0, 40);
  for (std::size_t f = 0; f < pack.features.size(); ++f) {
    if (!dice.chance(share)) continue;
    out.looks.push_back({f, dice.below(pack.features[f].values + 1), hows[dice.below(5)], sures[dice.below(4)]});
  }
  return out;
}

}  // namespace exworks::test::oracle
