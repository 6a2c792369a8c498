#pragma once
#include <string>

#include "assess/assessment.hpp"

namespace exworks {

/// What is claimed: "built 1950-05, Series MM and Home market".
std::string claim_words(const Tables& tables, const Claim& claim);
/// What was seen against what the claim's odds were before looking, in a sentence.
std::string support_words(const Assessment& assessment, const ClaimVerdict& claim);

/// One point: "Market: Home market", and what the observations show instead: "Home market, 93 %".
std::string point_words(const Tables& tables, const Claim& claim, ClaimOf point);
std::string found_words(const Tables& tables, const Marginals& marginals, ClaimOf point);

}  // namespace exworks
