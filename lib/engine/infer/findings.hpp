#pragma once
#include <optional>
#include <vector>

#include "engine/infer/posterior.hpp"

namespace exworks {

/// What the evidence says of one observed feature. "Type as built" (T): the value that is there now is the value with which
/// this build left the works, whether or not it is the very part.
struct FeatureFinding {
  std::size_t feature = 0;
  std::size_t seen = 0;        ///< index into Evidence::seen
  double p_type = 0;           ///< P(T | everything)
  double p_type_spoken = 0;    ///< P(T, and the pack speaks | everything)
  double p_later_spoken = 0;   ///< P(not T, and the pack speaks | everything)
  double p_silent = 0;         ///< P(the pack is silent on the build | everything)
  double p_before = 0;         ///< P(T | all but this observation)
  double likelihood_ratio = 1; ///< P(o_f | T, all else) / P(o_f | not T, all else)
  double p_untouched = 0;      ///< P(neither altered by itself nor replaced | everything): a change of the assembly that leaves it alone counts as neither
  std::vector<double> there;   ///< [value]: P(the value that is there | everything)
  std::vector<double> works;   ///< [value]: expected works share, over the builds that remain

  bool silent() const { return p_silent > 0.5; }  ///< more likely than not the pack says nothing of the build
};

/// What the evidence says of an assembly that can be replaced as one.
struct AssemblyFinding {
  std::size_t assembly = 0;
  double p_replaced = 0;
  /// Of the donors, given that it was replaced: posterior by donor build, [build]; sums to 1 less the outside donors.
  std::vector<double> donor;
  std::vector<std::pair<std::size_t, double>> outside;  ///< later change, P(it | replaced)
};

std::vector<FeatureFinding> feature_findings(const Evidence& evidence, const Posterior& posterior);
std::vector<AssemblyFinding> assembly_findings(const Tables& tables, const Posterior& posterior);

/// P(T) of one feature and P(o_a) with it, for one target, relative to P(o_a | target): the building block of the above and
/// of the score. Every figure is a share of P(o_a | target).
struct TypeSplit {
  double type = 0, later = 0;            ///< with the observation
  double type_before = 0, later_before = 0;  ///< with the observation left out
  double untouched = 0;
  std::vector<double> there;             ///< [value], with the observation
};
TypeSplit split_type(const AssemblyLikelihood& unit, const AssemblyLikelihood::Target& target, std::size_t position, double log_p);

/// The works' own process on a vehicle that was not replaced: value v is there, and it is (first) or is not (second) what the works fitted.
std::pair<double, double> own_process(const FeatureLikelihood& feature, ColumnIndex column, std::size_t value);

}  // namespace exworks
