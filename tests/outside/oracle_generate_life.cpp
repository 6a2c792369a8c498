#include <algorithm>

#include "oracle_generate.hpp"

/// What becomes of vehicles, by chance: assemblies, donors from outside, conversions and rates.
namespace exworks::test::oracle {

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
      row.donors = dice.members(pack.variants.size());
      if (std::find(row.variants.begin(), row.variants.end(), true) != row.variants.end()) assembly.rows.push_back(row);
    }
  }
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

void add_conversions(SmallPack& pack, Dice& dice) {
  const std::size_t shared = dice.below(pack.features.size());  // what more than one of them sets
  for (std::size_t i = 1 + dice.below(3); i > 0; --i) {
    Conversion conversion;
    conversion.share = dice.share(0.02, 0.3);
    conversion.scope = random_scope(pack, dice, 0.6);
    if (dice.chance(0.5)) conversion.from = random_edge(dice, last_month + dice.between(0, 20));
    std::vector<std::size_t> features = dice.some(pack.features.size(), std::min(pack.features.size(), 1 + dice.below(3)));
    if (dice.chance(0.5) && std::find(features.begin(), features.end(), shared) == features.end()) features.push_back(shared);
    for (const std::size_t f : features) {
      Sets sets{f, dice.below(pack.features[f].values + 1)};
      if (dice.chance(0.5)) sets.surely = dice.share(0.5, 0.99);
      conversion.sets.push_back(sets);
    }
    pack.conversions.push_back(conversion);
  }
}

void change_rates(PackRates& rates, Dice& dice) {
  rates.confusion = {dice.share(0.01, 0.05), 0.12, dice.share(0.2, 0.9)};
  rates.wrong_line = {0.002, dice.share(0.01, 0.03), dice.share(0.03, 0.2)};
  rates.not_recognised = {0.001, 0.02, dice.share(0.03, 0.1)};
  rates.taken_for_ours = {dice.share(0.02, 0.1), 0.2, dice.share(0.3, 0.6)};
  rates.altered = 0.07;
  rates.replaced = 0.12;
  for (auto& [kind, rate] : rates.altered_of) {
    if (dice.chance(0.5)) rate = dice.share(0.01, 0.6);
  }
  // Seven offsets take seven times the sums: now and then.
  const std::vector<double> offsets[] = {{1}, {1}, {0.2, 0.5, 0.3}, {0.2, 0.5, 0.3}, {0.2, 0.5, 0.3}, rates.offset_shares};
  rates.offset_shares = offsets[dice.below(6)];
  rates.known = dice.share(0.3, 0.9);
  rates.foreign = dice.share(0.1, 0.7);
  rates.later_weight = dice.between(1, 5);
  rates.unnamed_outside = dice.share(0.02, 0.3);
  rates.outside_other = dice.share(0.3, 0.9);
  rates.relative = dice.share(0.4, 0.95);
  rates.local = dice.share(0.2, 0.9);
  if (dice.chance(0.5)) rates.levels = {0.25, 1, 2, 6}, rates.level_shares = {0.3, 0.4, 0.2, 0.1};
}

}  // namespace exworks::test::oracle
