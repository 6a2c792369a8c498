#pragma once
#include <bitset>
#include <cstddef>

#include "base/index.hpp"

namespace exworks {

/// Members of one axis (variants, markets, plants ...) at most. A set of them is then 32 bytes by value, copied and compared without
/// memory of its own; the largest families that packs were written for have some 60 variants, so four times that is no hindrance.
inline constexpr std::size_t axis_limit = 256;
using AxisSet = std::bitset<axis_limit>;

/// The builds that a line speaks of: variant, market and plant must each be in.
struct Scope {
  AxisSet variants, markets, plants;

  bool covers(VariantIndex variant, MarketIndex market, PlantIndex plant) const { return variants[variant] && markets[market] && plants[plant]; }
  bool operator==(const Scope&) const = default;
};

}  // namespace exworks
