#pragma once
#include <string>
#include <vector>

#include "pack/model/pack.hpp"

namespace exworks {

/// One difference between two editions of a pack, in the trade's words.
struct PackDifference {
  std::string kind;   ///< added, removed, changed
  std::string about;  ///< source, market, plant, variant, assembly, feature, value, fact, later change, number
  std::string id;     ///< of the feature, variant ... it is about
  std::string words;  ///< "Headlamp position, high: Home market from Jan 1951, was from Oct 1950"
};

/// What `after` says that `before` did not, and the other way round. Things are matched by their ids; facts by value, scope and how
/// they were fitted. The order of lines in a file makes no difference.
std::vector<PackDifference> pack_differences(const Pack& before, const Pack& after);

}  // namespace exworks
