#pragma once
#include <cstdint>
#include <map>
#include <vector>

#include "engine/infer/unit.hpp"

namespace exworks {

/// Units that conversions tie together; most often one unit and no conversion. Over what a conversion is had or not, and over nothing
/// else, the units of a group depend on each other, given the build, the number's branch and the level.
class Group {
 public:
  /// `units`: indexes into `all`. `conversions`: of Tables::conversions, in the pack's order; those that touch these units.
  Group(const Tables& tables, const std::vector<Unit>& all, std::vector<std::size_t> units, std::vector<std::size_t> conversions, std::optional<Month> inspected);

  const std::vector<std::size_t>& units() const { return units_; }
  const std::vector<std::size_t>& conversions() const { return conversions_; }
  /// What of a build decides about the group: its units' targets, [position in units()], and which conversions were possible on it.
  struct Combination {
    std::vector<std::uint32_t> targets;
    std::uint32_t possible = 0;
    auto operator<=>(const Combination&) const = default;
  };
  const std::vector<Combination>& combinations() const { return combinations_; }
  /// The index of the cell's combination, added where it is new.
  std::uint32_t combination_of(std::size_t cell, std::vector<std::uint32_t> targets);

  /// Works out log_p; called when every combination is in. `targets`: [unit][target].
  void weigh(const std::vector<Unit>& all, const std::vector<std::vector<Unit::Target>>& targets);
  /// log P(o_g | combination, level)
  double log_p(std::size_t level, std::size_t combination) const { return log_p_[level][combination]; }
  /// The sets of conversions that were possible on a combination, ascending; bit i: conversions()[i] was had.
  const std::vector<std::uint32_t>& sets_of(std::size_t combination) const { return sets_.at(combinations_[combination].possible); }
  /// P(this one of sets_of(combination) was had | o_g, combination, level)
  double had(std::size_t level, std::size_t combination, std::size_t set) const { return conversions_.empty() ? 1.0 : had_[level][combination][set]; }
  /// The scenario of units()[position] when this set was had.
  Scenario scenario(std::size_t level, std::size_t position, std::uint32_t set) const;
  /// P(this set | combination, level), before looking.
  double share(std::size_t level, std::size_t combination, std::uint32_t set) const;

 private:
  const Tables* t_;
  std::vector<std::size_t> units_, conversions_;
  std::vector<std::vector<std::size_t>> bits_;        ///< [position][bit of the unit]: bit of the group
  std::vector<std::vector<double>> share_;            ///< [level][conversion]: of the vehicles in its scope
  std::vector<Combination> combinations_;
  std::map<Combination, std::uint32_t> index_;
  std::map<std::uint32_t, std::vector<std::uint32_t>> sets_;  ///< by which were possible
  std::vector<std::vector<double>> log_p_;                    ///< [level][combination]
  std::vector<std::vector<std::vector<double>>> had_;         ///< [level][combination][set of sets_of]
};

/// The groups that the conversions of the pack make of these units.
std::vector<Group> find_groups(const Tables& tables, const std::vector<Unit>& units, std::optional<Month> inspected);

}  // namespace exworks
