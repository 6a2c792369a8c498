#pragma once
#include <optional>
#include <vector>

#include "engine/evidence/evidence.hpp"
#include "engine/infer/group.hpp"

namespace exworks {

/// The world in which the identity number is the vehicle's own (one for each set of changeovers that its ways of reading pass), or
/// the one in which it is not. Without a number there is one.
struct Branch {
  bool own_number = false;
  double mass = 0;                         ///< posterior of the branch; the branches sum to 1
  std::vector<std::optional<std::size_t>> edges_passed;  ///< [feature]: see FeatureInfo::column_by_number
  std::vector<double> cell_mass;           ///< [cell]: posterior, sums to `mass`
  std::vector<std::vector<std::uint32_t>> target_of;       ///< [unit][cell]: index into Posterior::targets[unit]
  std::vector<std::vector<std::uint32_t>> combination_of;  ///< [group][cell]

  ColumnIndex column(const Tables& tables, FeatureIndex feature, CellIndex cell) const;
};

/// A cell in one branch and at one level of alteration, with its posterior.
struct Active {
  std::uint32_t branch = 0, level = 0, cell = 0;
  double mass = 0;
};

/// Everything that follows from the evidence by Bayes, without sampling.
struct Posterior {
  std::vector<Unit> units;
  std::vector<std::vector<Unit::Target>> targets;  ///< [unit][target]: distinct ones among the cells of all branches
  std::vector<Group> groups;
  std::vector<Branch> branches;
  std::vector<Active> active;       ///< those that can show in any figure
  std::vector<double> build;        ///< [build]: P(b | o), sums to 1
  std::vector<double> level;        ///< [level]: P(level of alteration | o), sums to 1
  double log_evidence = 0;          ///< log P(o), the identity number included
  bool impossible = false;          ///< nothing in the pack allows what is given; `build` is then the prior
  std::optional<double> own_number; ///< P(the identity number is the vehicle's own | o)

  /// [level][combination]: posterior of the cells that have it.
  std::vector<std::vector<double>> combination_mass(std::size_t group) const;
  /// [scenario][target]: posterior of the cells that have it, in that scenario.
  std::vector<std::vector<double>> target_mass(std::size_t unit) const;
  /// [column]: posterior of the cells that have it.
  std::vector<double> column_mass(const Tables& tables, FeatureIndex feature) const;
  /// The group that holds a unit, and the unit's position within it.
  std::pair<std::size_t, std::size_t> group_of(std::size_t unit) const;
};

Posterior infer(const Tables& tables, const Evidence& evidence);

/// [build]: P(b) before looking; vehicles sold new in `country` weigh more where one is given.
std::vector<double> prior_of(const Tables& tables, const std::string& country);

}  // namespace exworks
