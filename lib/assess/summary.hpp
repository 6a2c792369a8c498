#pragma once
#include <vector>

#include "assess/assessment.hpp"

/// What several presentations add up, worked out once.
namespace exworks {

/// How many features have each verdict; they add up to the features observed.
struct VerdictCounts {
  std::size_t original = 0, later = 0, uncertain = 0;

  void add(VerdictKind kind) { ++(kind == VerdictKind::original ? original : kind == VerdictKind::later_change ? later : uncertain); }
  std::size_t all() const { return original + later + uncertain; }
};
VerdictCounts verdict_counts(const Assessment& assessment);
/// The same by where one stands: [place].
std::vector<VerdictCounts> counts_by_place(const Tables& tables, const Assessment& assessment);

/// Later changes that are one: brought by the same known change or conversion, or with the same replaced assembly. Indices into Assessment::features,
/// in their order; the first of a group speaks for it.
using ChangeGroup = std::vector<std::size_t>;
std::vector<ChangeGroup> change_groups(const Tables& tables, const Assessment& assessment);

/// What going back would take, over the groups.
struct GoingBack {
  double hours = 0;
  bool all_known = true;  ///< false: of some change the hours are not known, and `hours` is a lower limit
};
GoingBack hours_to_go_back(const Assessment& assessment, const std::vector<ChangeGroup>& groups);

/// The verdict on a feature, or null.
const FeatureVerdict* verdict_on(const Assessment& assessment, FeatureIndex feature);

}  // namespace exworks
