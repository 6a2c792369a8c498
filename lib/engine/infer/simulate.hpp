#pragma once
#include "base/random.hpp"
#include "engine/evidence/evidence.hpp"

namespace exworks {

/// How a simulated world differs from what the pack believes. The right world differs in nothing.
struct World {
  double rates = 1;              ///< factor on the rates of change and of replacement
  int shifted_months = 0;        ///< every changeover comes this much later than the pack says, or earlier, by vehicle
  double outside_pack = 0;       ///< share of features whose value the pack doesn't know
};

inline constexpr World right_world{};
/// The wrong world of `trial`: rates doubled, changeovers shifted 3 months, 5 % of the values outside the pack.
inline constexpr World wrong_world{2, 3, 0.05};

struct SimulatedVehicle {
  std::size_t build = 0, route = 0;
  Month month;
  Evidence evidence;             ///< what an inspector noted of it
  std::vector<bool> as_built;    ///< [Evidence::seen]: the value there is the one with which it left the works
};

/// Draws a build by volume, what became of its assemblies and features, and an inspection that sees each feature with
/// probability `coverage`; eight notes in ten are sure, one and a half probable, the rest guesses (judgement).
SimulatedVehicle simulate_vehicle(const Tables& tables, const World& world, double coverage, Random& random);

}  // namespace exworks
