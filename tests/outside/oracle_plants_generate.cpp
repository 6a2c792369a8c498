#include <algorithm>

#include "oracle_builds.hpp"
#include "oracle_generate.hpp"

/// Markets and months without a plant at work.
namespace exworks::test::oracle {

namespace {

/// Every variant, market and volume has a vehicle: else the pack's reader would find fault with another thing.
bool well_formed(const SmallPack& pack) {
  const std::vector<Build> builds = list_builds(pack).list;
  const auto some = [&](const auto& is) { return std::any_of(builds.begin(), builds.end(), is); };
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    if (!some([&](const Build& b) { return b.variant == v; })) return false;
  }
  for (const Volume& volume : pack.volumes) {
    const auto counted = [&](const Build& b) {
      return (volume.scope.variants.empty() || volume.scope.variants[b.variant]) && b.month >= volume.months.first &&
             b.month <= volume.months.last;
    };
    if (!some(counted)) return false;
  }
  return true;
}

void close_some(SmallPack& pack, Dice& dice) {
  for (Plant& plant : pack.plants) {
    for (std::size_t m = 0; m < plant.markets.size(); ++m) plant.markets[m] = dice.chance(0.7);
    if (std::none_of(plant.markets.begin(), plant.markets.end(), [](bool serves) { return serves; })) plant.markets[0] = true;
    plant.at_work.reset();
    if (!dice.chance(0.8)) continue;
    const int opened = 24 + dice.between(0, 10);
    plant.at_work = Window{opened, opened + dice.between(2, 14)};
  }
  for (Variant& variant : pack.variants) {
    for (std::size_t p = 0; p < variant.plants.size(); ++p) variant.plants[p] = variant.plants[p] || dice.chance(0.5);
    const int free = variant.built.last - variant.built.first - variant.doubt;
    variant.doubt_end = dice.chance(0.3) && free > 2 ? dice.between(1, free - 1) : 0;
  }
}

}  // namespace

void close_plants(SmallPack& pack, Dice& dice) {
  if (pack.plants.size() < 3 && dice.chance(0.5)) {
    pack.plants.push_back({static_cast<double>(dice.between(1, 4)), pack.plants[0].markets, {}});
    for (Variant& variant : pack.variants) variant.plants.push_back(true);
  }
  const SmallPack wider = pack;
  for (int i = 0; i < 20; ++i) {
    close_some(pack, dice);
    if (well_formed(pack)) break;
    pack = wider;
  }
  // Scopes name each plant, and none of them the new one.
  const auto widen = [&](Scope& scope) {
    if (!scope.plants.empty()) scope.plants.resize(pack.plants.size(), false);
  };
  for (Feature& feature : pack.features) {
    widen(feature.applies);
    for (Fact& fact : feature.facts) widen(fact.scope);
    for (Change& change : feature.changes) widen(change.scope);
  }
  for (Outside& outside : pack.outsides) widen(outside.scope);
  for (Conversion& conversion : pack.conversions) widen(conversion.scope);
  if (dice.chance(0.3)) pack.variants[dice.below(pack.variants.size())].units = 0;
  if (pack.volumes.size() > 1 && dice.chance(0.7)) pack.volumes.pop_back();
  tidy(pack);
}

}  // namespace exworks::test::oracle
