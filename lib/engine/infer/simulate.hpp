#pragma once
#include "base/random.hpp"
#include "engine/evidence/evidence.hpp"

namespace exworks {

/// How a simulated world differs from what the pack believes. The right world differs in nothing.
struct World {
  double rates = 1;              ///< factor on the rates of change and of replacement
  double outside = 0;            ///< share of features that show a kind from outside the pack
  int own_edges = 0;             ///< each feature's changeovers lie up to so many months off, by feature and vehicle
  int all_edges = 0;             ///< all changeovers lie up to so many months off, together, by vehicle
  bool like_relatives = false;   ///< where the pack is silent the works did as for the nearest relative
  bool restored = false;         ///< half the vehicles were restored towards one year of their generation
};

inline constexpr World right_world{};
/// The worlds of `trial`: the right one, each way of being wrong by itself, and all of them together. Judgement.
struct NamedWorld {
  const char* id;
  World world;
};
inline constexpr NamedWorld worlds[] = {
    {"right", {}},
    {"rates-doubled", {2, 0, 0, 0, false, false}},
    {"outside", {1, 0.1, 0, 0, false, false}},
    {"own-edges", {1, 0, 3, 0, false, false}},
    {"all-edges", {1, 0, 0, 3, false, false}},
    {"like-relatives", {1, 0, 0, 0, true, false}},
    {"restored", {1, 0, 0, 0, false, true}},
    {"all-together", {2, 0.1, 3, 3, true, true}},
};

struct SimulatedVehicle {
  std::size_t build = 0, route = 0;
  Month month;
  Evidence evidence;             ///< what an inspector noted of it
  std::vector<bool> as_built;    ///< [Evidence::seen]: the value there is the one with which it left the works
};

/// Draws a build by volume, how much it was altered, what was converted, what became of its assemblies and features, and an inspection that sees each feature with
/// probability `coverage`; eight notes in ten are sure, one and a half probable, the rest guesses (judgement).
SimulatedVehicle simulate_vehicle(const Tables& tables, const World& world, double coverage, Random& random);

}  // namespace exworks
