#include <algorithm>

#include "oracle_generate.hpp"
#include "oracle_noted.hpp"

/// Inspections by chance.
namespace exworks::test::oracle {

namespace {

/// What an inspector who is not sure which leaves open: some values, all but some, a group, or what a measure fits.
void leave_open(const Feature& feature, Dice& dice, Look& look) {
  if (!feature.measures.empty() && dice.chance(0.6)) {
    const double from = dice.between(8, 52);
    look.measure = {from, dice.chance(0.6) ? from : from + dice.between(1, 15)};
    look.how = dice.chance(0.8) ? "measured" : look.how;
    return;
  }
  const std::size_t kind = dice.below(10);
  if (kind == 0) {
    look.values = dice.some(feature.values + 1, 2);
  } else if (kind == 1 && feature.values > 1) {
    look.but = true;
    look.values = dice.some(feature.values, 1 + dice.below(feature.values - 1));
  } else if (kind == 2 && !feature.groups.empty()) {
    look.groups = {0};
    look.values.clear();
    look.but = dice.chance(0.3);
    if (!look.but && dice.chance(0.3)) look.values = {dice.below(feature.values + 1)};
  } else {
    look.values = {dice.below(feature.values + 1)};
  }
}

}  // namespace

Visit random_visit(const SmallPack& pack, Dice& dice, double share) {
  const char* const hows[] = {"seen", "seen", "read", "photo", "told"};
  const char* const sures[] = {"sure", "sure", "probable", "guess"};
  const char* const countries[] = {"GB", "US", "AU", "NZ"};
  Visit out;
  if (dice.chance(0.8)) out.month = last_month + dice.between(0, 40);
  if (dice.chance(0.4)) out.country = countries[dice.below(4)];
  for (std::size_t f = 0; f < pack.features.size(); ++f) {
    if (!dice.chance(share)) continue;
    Look look{f, {}, hows[dice.below(5)], sures[dice.below(4)]};
    leave_open(pack.features[f], dice, look);
    out.looks.push_back(look);
  }
  return out;
}

}  // namespace exworks::test::oracle
