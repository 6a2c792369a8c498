#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/infer/lookahead.hpp"
#include "assess/assessment.hpp"

namespace exworks {

enum class Aim { build, verdicts, both };

/// What one outcome of a look would settle.
struct Outcome {
  std::string value_id, value;
  double p = 0;                  ///< that it will be noted
  std::size_t variant = 0;       ///< leading then
  double variant_p = 0;
  DateSet date;                  ///< then
};

struct Check {
  std::size_t feature = 0;
  double build_bits = 0, verdict_bits = 0, minutes = 0, bits_per_minute = 0;
  std::vector<double> noted;     ///< [value]: that it will be noted
  std::vector<Outcome> outcomes; ///< those with odds of 3 % or more, likeliest first
};

struct NextChecks {
  std::vector<Check> checks;     ///< best first; or, with a budget, in the order of a walk-round
  double minutes = 0;            ///< of the plan
  std::size_t left_out = 0;      ///< features that are not worth looking at
  DateSet date;                  ///< as things stand
  std::string note;
};

/// The unseen features in the order of expected information per minute of looking. With `budget` (minutes) a plan: the best
/// are taken one after the other, each on the likeliest outcome of those before it, until the time is used up, then
/// grouped by where one stands. `most`: how many to return without a budget.
NextChecks next_checks(const Tables& tables, const Inspection& inspection, Aim aim, std::optional<double> budget, std::size_t most, Diagnostics& diagnostics);

/// Below this many bits a look is not worth while: a coin that falls heads 99.8 times in 100 has as much.
inline constexpr double worth_looking_bits = 0.02;

}  // namespace exworks
