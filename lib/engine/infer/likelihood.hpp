#pragma once
#include <optional>
#include <utility>
#include <vector>

#include "base/log_weight.hpp"
#include "engine/tables/tables.hpp"
#include "engine/evidence/evidence.hpp"

/// L_f(o|b) and P(o_a|b) of design.md, by column. Everything is in logs: 400 observations in one assembly don't underflow.
namespace exworks {

/// What may have happened to a feature: how the value that is there came to be.
class FeatureLikelihood {
 public:
  /// `seen` may be null: then every value is as good as another and the likelihood is 1.
  FeatureLikelihood(const Tables& tables, std::size_t feature, const Seen* seen, std::optional<Month> inspected);

  /// R_f(v|b): [value], sums to 1. Known later changes possible by the inspection, plus a small even share.
  const std::vector<double>& changed_to(ColumnIndex column) const { return changed_[column]; }
  /// A(v|b) = (1-e) F(v|b) + e R(v|b): [value]
  const std::vector<double>& there(ColumnIndex column) const { return there_[column]; }
  /// P(o|v): [value]
  const std::vector<double>& given() const { return given_; }
  /// log L_f(o|b)
  double log(ColumnIndex column) const { return log_[column]; }
  const FeatureInfo& feature() const { return *feature_; }
  std::size_t index() const { return index_; }

 private:
  std::size_t index_;
  const FeatureInfo* feature_;
  std::vector<double> given_;
  std::vector<std::vector<double>> changed_, there_;
  std::vector<double> log_;
};

/// The observed features of one assembly, or one feature that belongs to none (then it can't be replaced as one).
class AssemblyLikelihood {
 public:
  AssemblyLikelihood(const Tables& tables, std::optional<std::size_t> assembly, std::vector<FeatureLikelihood> features, std::optional<Month> inspected);

  /// A combination of columns of the observed features, with what decides about donors.
  struct Target {
    std::vector<ColumnIndex> columns;  ///< [position in features()]
    std::size_t donor_group = 0;
    std::vector<std::size_t> changes;  ///< outside donors
    auto operator<=>(const Target&) const = default;
  };

  const std::vector<FeatureLikelihood>& features() const { return features_; }
  std::optional<std::size_t> assembly() const { return assembly_; }
  double replaced() const { return replaced_; }

  /// log P(o_a|b)
  double log(const Target& target) const;
  /// log of c_a times each way of replacement, to be added up. Donors of the family that are alike in every observed feature are
  /// one way.
  struct Way {
    std::vector<std::pair<std::size_t, double>> donors;  ///< assembly columns, each with its share of the way; empty: an outside donor
    std::optional<std::size_t> change;                   ///< the outside donor
    double log_weight = 0;                               ///< of c_a x w; log_zero weights are left out
    bool of_family() const { return !donors.empty(); }
  };
  /// The family's donors taken together. What they leave there depends on the vehicle only by which of them it may have got.
  struct Donors {
    double log = log_zero;                  ///< log of the sum over them of c_a x w x L(o|donor)
    std::vector<double> log_others;         ///< [position]: the same without what was seen of that feature
    std::vector<std::vector<double>> left;  ///< [position][value]: the share of each value that they leave there, by what was seen of the others
  };
  const std::vector<Way>& ways(const Target& target) const { return set_of(target).ways; }
  const Donors& donors(const Target& target) const { return set_of(target).together; }
  double log_intact() const { return log_intact_; }  ///< log(1 - c_a)
  /// log L_f(o|donor) of every observed feature but `skip`, for a way of replacement.
  double log_way(const Way& way, const Target& target, std::optional<std::size_t> skip) const;
  /// The share of each value of feature `position` that a way of replacement leaves there.
  const std::vector<double>& way_values(const Way& way, const Target& target, std::size_t position) const;
  /// Does an outside donor leave this feature as it was?
  bool leaves_alone(std::size_t change, std::size_t position) const;
  ColumnIndex donor_column(std::size_t donor, std::size_t position) const;

 private:
  const Tables& tables_;
  std::optional<std::size_t> assembly_;
  std::vector<FeatureLikelihood> features_;
  std::vector<std::size_t> positions_;  ///< of features_ within AssemblyInfo::features
  double replaced_ = 0, log_intact_ = 0;
  /// The ways of replacement that vehicles with the same donors and the same known changes share.
  struct WaySet {
    std::size_t donor_group;
    std::vector<std::size_t> changes;
    std::vector<Way> ways;
    Donors together;
  };
  void find_ways(std::optional<Month> inspected);
  void add_donors(WaySet& set, double log_share) const;
  void take_together(WaySet& set) const;
  const WaySet& set_of(const Target& target) const;
  std::vector<WaySet> way_sets_;
  std::vector<std::vector<std::vector<double>>> certain_;  ///< [position][value]: that value for sure
  std::vector<double> donor_log_;       ///< [assembly column]: sum of log L over the observed features
};

}  // namespace exworks
