#pragma once
#include <optional>
#include <vector>

#include "engine/evidence/evidence.hpp"
#include "engine/infer/likelihood.hpp"

namespace exworks {

/// One unit of evidence (an assembly, or a feature by itself) as the cells see it.
struct UnitView {
  std::vector<AssemblyLikelihood::Target> targets;  ///< distinct combinations among the cells
  std::vector<std::uint32_t> target_of;             ///< [cell]
  std::vector<double> log_p;                        ///< [target]: log P(o_a | target)
  std::vector<double> mass;                         ///< [target]: posterior of this branch's cells that have it
};

/// The world in which the identity number is the vehicle's own (one for each set of changeovers that its ways of reading pass), or
/// the one in which it is not. Without a number there is one.
struct Branch {
  bool own_number = false;
  double mass = 0;                         ///< posterior of the branch; the branches sum to 1
  std::vector<std::optional<std::size_t>> edges_passed;  ///< [feature]: see FeatureInfo::column_by_number
  std::vector<UnitView> views;             ///< [unit]
  std::vector<double> cell_mass;           ///< [cell]: posterior, sums to `mass`

  ColumnIndex column(const Tables& tables, std::size_t feature, std::size_t cell) const;
};

/// Everything that follows from the evidence by Bayes, without sampling.
struct Posterior {
  std::vector<AssemblyLikelihood> units;
  std::vector<Branch> branches;
  std::vector<double> build;        ///< [build]: P(b | o), sums to 1
  double log_evidence = 0;          ///< log P(o), the identity number included
  bool impossible = false;          ///< nothing in the pack allows what is given; `build` is then the prior
  std::optional<double> own_number; ///< P(the identity number is the vehicle's own | o)
};

Posterior infer(const Tables& tables, const Evidence& evidence);

}  // namespace exworks
