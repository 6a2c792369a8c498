#pragma once
#include <optional>
#include <vector>

#include "oracle_pack.hpp"

/// The builds of a pack and how many were made of each.
namespace exworks::test::oracle {

/// With 15 bits of exponent: 400 factors of 0.0001 are still far from its smallest number.
using Real = long double;
using Reals = std::vector<Real>;

struct Build {
  std::size_t variant = 0;
  int month = 0;
  std::size_t market = 0, plant = 0;
};

struct Builds {
  std::vector<Build> list;
  Reals p;  ///< [build], sums to 1
};

Real sum(const Reals& numbers);
bool inside(const Window& window, int month);
bool covers(const SmallPack& pack, const Scope& scope, const Build& build);
/// Share of the builds of a month made after a change; `absent` where there is no edge.
Real ramp(const std::optional<Window>& edge, int month, Real absent);

/// By units, volumes and shares.
Builds list_builds(const SmallPack& pack);
/// The odds of a vehicle that stands in this country; as they are where it says nothing.
Reals where_it_stands(const SmallPack& pack, const Builds& builds, const std::string& country);

}  // namespace exworks::test::oracle
