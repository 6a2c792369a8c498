#pragma once
#include <vector>

#include "engine/tables/tables.hpp"
#include "record/inspection.hpp"

/// What an inspector notes of what is there. lib/handbook/the-arithmetic.md, "What was noted".
namespace exworks {

/// How sure a look counts: what was told or seen on a photo counts one step less than the inspector says. But who tells of a kind that is none
/// of these names it, and doesn't pick it out of a list.
Trust trust_in(HowSeen how, HowSure sure);

/// P(noted | there) of one feature; values and, last, `other`.
class NoteModel {
 public:
  NoteModel(const FeatureInfo& feature, const Rates& rates, Trust trust);

  double operator()(ValueIndex noted, ValueIndex there) const { return rows_[there][noted]; }
  /// [there]: P(one of `left_open` is noted | there)
  std::vector<double> given(const std::vector<ValueIndex>& left_open) const;
  /// [noted]: of a value that is there; sums to 1.
  const std::vector<double>& notes(ValueIndex there) const { return rows_[there]; }

 private:
  std::vector<double> of_listed(const FeatureInfo& feature, const Rates& rates, Trust trust, ValueIndex there) const;
  std::vector<double> of_other(const FeatureInfo& feature, const Rates& rates, std::size_t step) const;

  std::vector<std::vector<double>> rows_;  ///< [there][noted]
};

}  // namespace exworks
