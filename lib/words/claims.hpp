#pragma once
#include <string>
#include <vector>

#include "assess/assessment.hpp"
#include "engine/tables/tables.hpp"
#include "record/inspection.hpp"

namespace exworks {

/// One part of a claim with its own odds.
struct ClaimPart {
  std::string what;
  double p = 0;
  std::string found;  ///< what the observations show instead
};
std::vector<ClaimPart> claim_parts(const Tables& tables, const Assessment& assessment, const Claim& claim);

}  // namespace exworks
