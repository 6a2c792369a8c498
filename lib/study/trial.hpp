#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "base/parallel.hpp"
#include "engine/infer/simulate.hpp"
#include "assess/assessment.hpp"

namespace exworks {

struct ReliabilityRow {
  double from = 0, to = 0;
  std::size_t n = 0;
  double stated = 0, came_true = 0;   ///< means over the row
};

/// What became of the stated odds in one simulated world.
struct TrialResult {
  double variant_first = 0;           ///< share of vehicles whose variant leads
  double within_6_months = 0;         ///< share whose month is within six of the posterior's median
  double date_set_coverage = 0;       ///< share of build dates in the date set cut to exactly 90 % (see trial.cpp)
  double whole_month_coverage = 0;    ///< the same for the set as it is printed, in whole months
  double score_interval_coverage = 0; ///< share of true scores in the interval (rounded outward to whole weights)
  double precision_original = 0, precision_later = 0, uncertain_share = 0, brier = 0;
  double median_window_months = 0;    ///< of the printed date set
  std::vector<ReliabilityRow> reliability;  ///< of P(type as built), by tenth
};

struct Trial {
  std::string family;
  std::size_t n = 0;
  std::uint64_t seed = 0;
  std::vector<TrialResult> in_world;  ///< in the order of `worlds`: the right one first, all wrongs together last
};

/// Simulates n vehicles in each of the worlds, assesses each. Same seed, same result, however many workers there are.
/// `coverage`: the share of features seen; below 0: drawn for each vehicle, even between 0.3 and 1.
Trial run_trial(const Tables& tables, std::size_t n, std::uint64_t seed, double coverage);
TrialResult run_world(const Tables& tables, const World& world, std::size_t n, std::uint64_t seed, double coverage, unsigned workers = worker_count());

/// How many checks it takes to a date window of so many months, by three orders.
struct Walk {
  std::size_t n = 0;          ///< vehicles that reach it with everything seen; the others are left out
  std::size_t simulated = 0;  ///< 4 n at most
  double by_next = 0, in_walk_order = 0, at_random = 0;  ///< mean number of checks
  double share_reached() const { return simulated > 0 ? static_cast<double>(n) / static_cast<double>(simulated) : 0.0; }
};
Walk run_walk(const Tables& tables, std::size_t n, std::uint64_t seed, int months);

}  // namespace exworks
