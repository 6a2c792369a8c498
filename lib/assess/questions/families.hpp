#pragma once
#include <string>
#include <vector>

#include "assess/assessment.hpp"

namespace exworks {

/// How well one pack takes an inspection that names no family.
struct FamilyOdds {
  std::size_t pack = 0;      ///< index into the packs tried; packs.size() stands for "none of them"
  double p = 0;
  std::size_t known = 0;     ///< features and numbers of the inspection that the pack knows
  std::size_t unknown = 0;
};

/// Odds over packs and "none", most likely first. A word that a pack doesn't know counts against it, and so does a number
/// that none of its forms reads; "none" has every value of a feature equally likely. Even odds before looking.
std::vector<FamilyOdds> family_odds(const std::vector<const Tables*>& packs, const Inspection& inspection);

}  // namespace exworks
