#pragma once
#include <vector>

#include "engine/infer/findings.hpp"

namespace exworks {

/// What would stand if one observation had not been made.
struct LeftOut {
  std::vector<double> variants;   ///< [variant]: P(variant | the rest)
  std::vector<double> type;       ///< [finding]: P(type as built, and the pack speaks | the rest); the one left out keeps its figure
  std::vector<double> later;      ///< [finding]: P(later change, and the pack speaks | the rest)
};

/// Leaves out each finding's observation in turn, [finding]. The posterior is reweighed, not computed anew: the observation's
/// group is the only factor that changes.
std::vector<LeftOut> leave_each_out(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings);

}  // namespace exworks
