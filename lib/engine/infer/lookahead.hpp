#pragma once
#include <vector>

#include "engine/infer/findings.hpp"

namespace exworks {

/// What looking at one more feature can be expected to tell, in bits (Shannon's mutual information, natural logs over log 2).
struct Outlook {
  FeatureIndex feature;
  double build_bits = 0;            ///< I(build; what will be noted | everything seen)
  double verdict_bits = 0;          ///< the same about its own "type as built" and the open verdicts, added up
  double applies = 0;               ///< P(the vehicle has such a feature)
  std::vector<double> noted;        ///< [value]: P(it will be noted)
};

/// Every feature that was not observed and that this vehicle may have, in the pack's order. `open`: features whose verdicts
/// are uncertain. The inspector is taken to be sure.
std::vector<Outlook> outlooks(const Tables& tables, const Evidence& evidence, const Posterior& posterior, const std::vector<FeatureIndex>& open);

/// The evidence with one more feature noted, seen and sure.
Evidence with_note(const Tables& tables, const Evidence& evidence, FeatureIndex feature, ValueIndex value);

}  // namespace exworks
