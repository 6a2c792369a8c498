#include <algorithm>

#include "oracle_generate.hpp"

/// Variants, markets, plants and how many were made, by chance.
namespace exworks::test::oracle {

std::vector<bool> only(std::size_t n, std::size_t i) {
  std::vector<bool> out(n, false);
  out[i] = true;
  return out;
}

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
  axis(out, a) = dice.members(size_of_axis(pack, a));
  const std::size_t b = dice.below(5);
  if (b != a && dice.chance(0.2)) axis(out, b) = dice.members(size_of_axis(pack, b));
  return out;
}

Window random_edge(Dice& dice, int first) {
  if (dice.chance(0.1)) return {first / 12 * 12, first / 12 * 12 + 11};
  return {first, dice.chance(0.5) ? first : first + dice.between(1, 7)};
}

namespace {

void add_markets_and_plants(SmallPack& pack, Dice& dice) {
  const char* const countries[] = {"GB", "US", "AU", ""};
  pack.markets.resize(1 + dice.below(3));
  for (Market& market : pack.markets) {
    market.share = dice.between(1, 6);
    market.country = countries[dice.below(4)];
  }
  pack.plants.resize(1 + dice.below(2));
  for (Plant& plant : pack.plants) {
    plant.share = dice.between(1, 4);
    plant.markets = dice.members(pack.markets.size());
  }
  pack.plants[0].markets.assign(pack.markets.size(), true);  // the first plant is always there, so that every vehicle has one
  if (pack.plants.size() > 1 && dice.chance(0.6)) {
    const int opened = year_1952 + dice.between(0, 8);
    pack.plants[1].at_work = Window{opened, opened + dice.between(3, 10)};
  }
}

}  // namespace

void add_axes(SmallPack& pack, Dice& dice) {
  add_markets_and_plants(pack, dice);
  pack.bodies = 1 + dice.below(2);
  const std::size_t variants = 2 + dice.below(3);
  pack.generations = 2 + dice.below(variants - 1);
  for (std::size_t v = 0; v < variants; ++v) {
    Variant variant;
    variant.generation = v < pack.generations ? v : dice.below(pack.generations);
    variant.body = v < pack.bodies ? v : dice.below(pack.bodies);
    variant.markets = dice.members(pack.markets.size());
    variant.plants = dice.members(pack.plants.size());
    variant.plants[0] = true;
    variant.built.first = year_1952 + dice.between(0, 6);
    variant.built.last = variant.built.first + dice.between(4, 12);
    if (dice.chance(0.2)) variant.doubt = dice.between(1, 3);
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

void add_share_rows(SmallPack& pack, Dice& dice) {
  for (std::size_t m = 0; m < pack.markets.size() && pack.markets.size() > 1; ++m) {
    int month = year_1952 + dice.between(0, 4);
    for (std::size_t i = dice.below(3); i > 0; --i) {
      const Window months{month, month + dice.between(0, 5)};
      pack.shares.push_back({m, months, static_cast<double>(dice.between(1, 9))});
      month = months.last + dice.between(1, 4);
    }
  }
}

}  // namespace exworks::test::oracle
