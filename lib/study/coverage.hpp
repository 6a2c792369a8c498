#pragma once
#include <cstdint>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// Builds of one generation for which the pack does not say what the works fitted.
struct SilentArea {
  std::size_t feature = 0, generation = 0;
  double share = 0;     ///< of the generation's vehicles that have the feature
  Month from, to;       ///< first and last month of those builds
};

/// One generation in one calendar year.
struct YearCoverage {
  int year = 0;
  double share = 0;                        ///< of the generation's vehicles
  std::size_t vehicles = 0;                ///< simulated
  double median_window_months = 0;         ///< of the 90 % date set, every feature seen
  std::vector<std::size_t> dating;         ///< features with a changeover within this generation and year
};

struct GenerationCoverage {
  std::size_t generation = 0;
  std::vector<YearCoverage> years;
};

/// What a pack can say, and how finely.
struct PackCoverage {
  std::size_t features = 0, facts = 0, published = 0, common_practice = 0, memory = 0, number_ranges = 0;
  std::size_t simulated = 0;
  std::uint64_t seed = 0;
  double median_window_months = 0;              ///< every feature seen, no number read
  double median_window_with_number_months = 0;  ///< and the identity number read
  double share_with_number = 0;                 ///< simulated vehicles for whose month the pack has a range of numbers
  std::vector<GenerationCoverage> generations;
  std::vector<SilentArea> silent;               ///< features in the pack's order
};

/// A fact counts by its best source: published before common practice before memory. `n`: vehicles simulated for the medians;
/// `n_year`: for each generation and year (0: no windows by year). Same seed, same result, on whatever machine.
PackCoverage pack_coverage(const Tables& tables, std::size_t n, std::size_t n_year, std::uint64_t seed);

}  // namespace exworks
