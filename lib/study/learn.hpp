#pragma once
#include <map>
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"
#include "record/inspection.hpp"

namespace exworks {

/// A rate of change as experts' findings leave it: the pack's value as a prior worth `prior_vehicles`, plus the counts.
struct LearnedRate {
  double rate = 0;         ///< mean of the Beta (or Dirichlet) posterior
  std::size_t n = 0;       ///< vehicles on which it could be counted
  std::size_t changed = 0; ///< of them
};

/// Rates learned from confirmed vehicles; kept apart from the pack, which is never touched.
struct LearnedRates {
  std::string family, pack_version;
  double prior_vehicles = 20;
  std::size_t vehicles = 0;
  std::map<std::string, LearnedRate> altered;   ///< by feature id
  std::map<std::string, LearnedRate> replaced;  ///< by assembly id
  std::map<std::string, LearnedRate> changes;   ///< by later change of a feature: its share among that feature's changes
  std::map<std::string, LearnedRate> classes;   ///< by class of change, over all features that have their rate from it
  std::map<std::string, LearnedRate> foreign;   ///< by feature id: of its changes that no later change names, those to a kind from outside
  std::vector<double> alteration;               ///< [level of Rates::alteration]: shares of vehicles; empty: not learned
};

/// Counts what `confirmed=` says. An assembly counts as replaced where at least two of its confirmed features, and at least half of
/// them, were changed; its features then say nothing of changes by themselves. A class's rate is for its features that were counted on no vehicle;
/// the shares of the levels of alteration are the mean of the vehicles' own odds of them, by the pack's rates. `prior_vehicles` > 0.
LearnedRates learn_rates(const Tables& tables, const std::vector<Inspection>& confirmed, double prior_vehicles);

/// Puts learned rates in place of the pack's. Ids that the pack doesn't know are reported at `file`.
void apply_rates(Tables& tables, const LearnedRates& rates, const std::string& file, Diagnostics& diagnostics);

}  // namespace exworks
