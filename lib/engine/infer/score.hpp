#pragma once
#include <vector>

#include "engine/infer/findings.hpp"

namespace exworks {

/// Originality: the share of the inspected weight that is as built, 0 to 1.
struct Score {
  double value = 0;       ///< expected
  double low = 0, high = 0;  ///< central 90 % of its posterior distribution
  double coverage = 0;    ///< share of the weight on this vehicle that was inspected
  int weight = 0;         ///< inspected weight counted; 0 when there is nothing to score
};

/// Features on which the pack is silent for this vehicle (P > 1/2) are not counted. The distribution is exact given the
/// cell and the level; for the interval, these are taken in order of their odds until 99.9 % of them are in; the mean is exact.
Score originality_score(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings);

}  // namespace exworks
