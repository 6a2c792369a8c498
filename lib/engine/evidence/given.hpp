#pragma once
#include <string>
#include <vector>

#include "engine/evidence/evidence.hpp"

namespace exworks {

/// Conditions as a person gives them: "variant=s1-*", "generation=", "body=", "market=", "plant=", "built=1954-01/1954-12",
/// "number=own" or "number=not-own". Globs are allowed; several of one kind widen it, different kinds narrow. Mistakes are
/// reported at `place`.
Given parse_given(const Tables& tables, const std::vector<std::string>& conditions, const Place& place, Diagnostics& diagnostics);

/// What a claim says, as a condition; its names are known to the pack (or their part of it allows no build).
Given as_given(const Tables& tables, const Claim& claim);

}  // namespace exworks
