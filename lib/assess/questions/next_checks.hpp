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
  ValueIndex value;              ///< of the feature
  double p = 0;                  ///< that it will be noted
  std::size_t variant = 0;       ///< leading then
  double variant_p = 0;
  DateSet date;                  ///< then
};

struct Check {
  FeatureIndex feature;
  double build_bits = 0, verdict_bits = 0, minutes = 0, bits_per_minute = 0;
  std::vector<double> noted;     ///< [value]: that it will be noted
  std::vector<Outcome> outcomes; ///< those whose odds are worth telling, likeliest first
};

struct NextChecks {
  std::vector<Check> checks;     ///< best first; or, with a budget, in the order of a walk-round
  double minutes = 0;            ///< of the plan
  std::size_t left_out = 0;      ///< features that are not worth looking at
  DateSet date;                  ///< as things stand
  bool nothing_left = false;     ///< no unseen feature can be expected to change the answer
  bool no_time = false;          ///< no look that is worth while fits into the budget
};

/// The unseen features in the order of expected information per minute of looking. With `budget` (minutes) a plan: the best
/// are taken one after the other, each on the likeliest outcome of those before it, until the time is used up, then
/// grouped by where one stands. `most`: how many to return without a budget.
NextChecks next_checks(const Tables& tables, const Inspection& inspection, Aim aim, std::optional<double> budget, std::size_t most, Diagnostics& diagnostics,
                       const Settings& settings = {});

}  // namespace exworks
