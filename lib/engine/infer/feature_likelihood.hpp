#pragma once
#include <optional>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// Is a change of this share known on the day of the inspection, and by how much? share x how far it was possible by then.
double possible_share(double share, const std::optional<Edge>& from, std::optional<Month> inspected);

/// What a change of a feature by itself leaves behind, R_f(.|b), in the parts that explain it. The parts sum to 1.
struct Changed {
  struct Known {
    std::size_t change = 0;  ///< index into Tables::changes
    double share = 0;
  };
  std::vector<Known> known;
  std::vector<double> family;  ///< [value, `other` last]
  double outside = 0;          ///< to `other`
};

/// One observed (or foreseen) feature: how the value that is there came to be, by column and by level of alteration.
class FeatureLikelihood {
 public:
  /// `given`: [value] P(what was noted | the value there); null when nothing was: then the likelihood is 1.
  FeatureLikelihood(const Tables& tables, FeatureIndex feature, const std::vector<double>* given, std::optional<Month> inspected);

  FeatureIndex index() const { return index_; }
  const FeatureInfo& info() const { return *info_; }
  std::size_t values() const { return given_.size(); }
  const std::vector<double>& given() const { return given_; }
  const std::vector<double>& works(ColumnIndex column) const { return info_->columns[column].share; }
  const Changed& changed(ColumnIndex column) const { return parts_[column]; }
  /// R_f(.|b): [value]
  const std::vector<double>& changed_to(ColumnIndex column) const { return changed_[column]; }
  double altered(std::size_t level) const { return altered_[level]; }
  /// (1-e) F(v|b) + e R(v|b)
  double there(std::size_t level, ColumnIndex column, ValueIndex value) const {
    return (1 - altered_[level]) * works(column)[value] + altered_[level] * changed_[column][value];
  }
  /// L_f(o|b)
  double likelihood(std::size_t level, ColumnIndex column) const { return (1 - altered_[level]) * of_works_[column] + altered_[level] * of_changed_[column]; }

 private:
  Changed parts_of(const Tables& tables, const Column& column, std::optional<Month> inspected) const;
  std::vector<double> family_of(const Tables& tables, const Column& column) const;
  void add_column(const Tables& tables, Changed parts);
  Changed mean_of(const Column& column) const;

  FeatureIndex index_;
  const FeatureInfo* info_;
  std::vector<double> given_;
  std::vector<double> altered_;                ///< [level]
  std::vector<Changed> parts_;                 ///< [column]
  std::vector<std::vector<double>> changed_;   ///< [column][value]
  std::vector<double> of_works_, of_changed_;  ///< [column]: P(noted | as the works left it), P(noted | changed)
};

}  // namespace exworks
