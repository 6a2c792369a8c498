#include "oracle_generate.hpp"

#include <algorithm>

/// Whole packs by chance.
namespace exworks::test::oracle {

namespace {

/// Values that are taken for others, or for nothing in the pack; values that have a name together; values that are measured.
void add_looks(Feature& feature, Dice& dice) {
  const auto pair = [&] { return dice.some(feature.values, 2); };
  if (dice.chance(0.4)) {
    const auto p = pair();
    feature.looks_like.emplace_back(p[0], p[1]);
    if (dice.chance(0.5)) feature.looks_like.emplace_back(p[1], p[0]);
  }
  if (dice.chance(0.3)) {
    const auto p = pair();
    feature.alike.push_back({p[0], p[1], dice.share(0.01, 0.4)});
  }
  if (dice.chance(0.3)) {
    for (const std::size_t v : dice.some(feature.values, 1 + dice.below(2))) feature.looks_like.emplace_back(v, feature.values);
  }
  if (dice.chance(0.4)) feature.groups.push_back(dice.some(feature.values, 2 + dice.below(feature.values - 1)));
  if (!dice.chance(0.2)) return;
  for (std::size_t v = 0; v < feature.values; ++v)
    feature.measures.push_back({static_cast<double>(10 * (v + 1) + dice.below(10)), static_cast<double>(1 + dice.below(8))});
}

void add_changes(const SmallPack& pack, Feature& feature, Dice& dice) {
  for (std::size_t i = dice.below(4); i > 0; --i) {
    Change change{dice.below(feature.values + 1), random_scope(pack, dice, 0.5), {}, static_cast<double>(dice.between(1, 5))};
    if (dice.chance(0.6)) change.from = random_edge(dice, last_month + dice.between(0, 20));
    feature.changes.push_back(change);
  }
}

}  // namespace

void add_feature(SmallPack& pack, Dice& dice, std::optional<std::size_t> assembly) {
  const char* const kinds[] = {"consumable", "accessory", "upgrade", "trim", "panel", "structure", "plate"};
  Feature feature;
  feature.values = 2 + dice.below(3);
  feature.weight = dice.between(0, 10);
  feature.assembly = assembly;
  if (dice.chance(0.6)) feature.kind = kinds[dice.below(7)];
  if (dice.chance(0.3)) feature.altered = dice.share(0.01, 0.3);
  if (dice.chance(0.3)) feature.foreign = dice.share(0.05, 0.9);
  add_looks(feature, dice);
  feature.applies = random_scope(pack, dice, 0.75);
  if (feature.applies != Scope{} && dice.chance(0.5)) feature.elsewhere = dice.below(feature.values + 1);
  add_facts(pack, feature, dice);
  if (dice.chance(0.35)) fall_silent(pack, feature, dice);
  add_changes(pack, feature, dice);
  pack.features.push_back(feature);
}

SmallPack random_pack(Dice& dice) {
  SmallPack pack;
  add_axes(pack, dice);
  add_volumes(pack, dice);
  if (dice.chance(0.5)) add_share_rows(pack, dice);
  add_assemblies(pack, dice);
  if (dice.chance(0.5)) change_rates(pack.rates, dice);
  for (std::size_t a = 0; a < pack.assemblies.size(); ++a) {
    for (std::size_t i = 2 + dice.below(2); i > 0; --i) add_feature(pack, dice, a);
  }
  for (std::size_t i = 1 + dice.below(3); i > 0 && pack.features.size() < 7; --i) add_feature(pack, dice, std::nullopt);
  add_outsides(pack, dice);
  if (dice.chance(0.7)) add_conversions(pack, dice);
  tidy(pack);
  return pack;
}

SmallPack long_pack(Dice& dice, std::size_t features, bool one_assembly) {
  SmallPack pack;
  pack.markets.resize(1);
  pack.plants = {{1, {true}, {}}};
  for (std::size_t v = 0; v < 2; ++v) pack.variants.push_back({v, 0, {true}, {true}, {year_1952, year_1952 + 5}, 0, 1000});
  if (one_assembly) pack.assemblies.resize(1);
  for (std::size_t f = 0; f < features; ++f) add_feature(pack, dice, one_assembly ? std::optional<std::size_t>{0} : std::nullopt);
  tidy(pack);
  return pack;
}

SmallPack tiny_pack(Dice& dice) {
  SmallPack pack = long_pack(dice, 0, true);
  for (Variant& variant : pack.variants) variant.built = {year_1952, year_1952 + 2};
  for (std::size_t f = 0; f < 3; ++f) add_feature(pack, dice, f < 2 ? std::optional<std::size_t>{0} : std::nullopt);
  for (Feature& feature : pack.features) {
    if (feature.facts.empty()) add_facts(pack, feature, dice);
  }
  if (dice.chance(0.5)) add_outsides(pack, dice);
  if (dice.chance(0.7)) add_conversions(pack, dice);
  tidy(pack);
  return pack;
}

}  // namespace exworks::test::oracle
