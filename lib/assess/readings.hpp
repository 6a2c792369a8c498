#pragma once
#include "assess/assessment.hpp"

namespace exworks {

/// The same evidence under other conditions: a claim is a reading of its own; an identity number that the rest of the vehicle speaks against
/// strongly gets two.
std::vector<Reading> judge_readings(const Tables& tables, const Inspection& inspection, const Evidence& evidence, const Posterior& posterior, const std::vector<ClaimVerdict>& claims,
                                    const Settings& settings);

/// What the answers hang on, at most two each, the weightiest first.
struct Hinges {
  std::vector<std::size_t> build;                  ///< features without which the leading variant no longer leads
  std::vector<std::vector<std::size_t>> features;  ///< [verdict]: those without which a firm verdict is no longer firm
};
Hinges find_hinges(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings, const Odds& leader,
                   const std::vector<FeatureVerdict>& verdicts, const Settings& settings);

}  // namespace exworks
