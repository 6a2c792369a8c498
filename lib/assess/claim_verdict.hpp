#pragma once
#include <vector>

#include "assess/marginals.hpp"
#include "engine/evidence/evidence.hpp"
#include "record/inspection.hpp"

namespace exworks {

/// What one point of a claim is about.
enum class ClaimOf { built, generation, variant, body, market, plant };

struct ClaimPoint {
  ClaimOf of = ClaimOf::built;
  double p = 0;  ///< P(this point | everything)
};

/// A claim that names something that a build can be.
struct ClaimVerdict {
  std::size_t claim = 0;           ///< index into Inspection::claims
  Given given;                     ///< what it says, as a condition
  double p = 0;                    ///< P(all of it | everything)
  std::vector<ClaimPoint> points;  ///< in the order of ClaimOf
};

/// `build`: P(b | o), [build]. The names of the claims are known to the pack.
std::vector<ClaimVerdict> judge_claims(const Tables& tables, const Inspection& inspection, const std::vector<double>& build);

}  // namespace exworks
