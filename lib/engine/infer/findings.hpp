#pragma once
#include <optional>
#include <vector>

#include "engine/infer/posterior.hpp"

namespace exworks {

/// One explanation of a change: what brought the value there that is not of the type as built.
struct CauseOdds {
  Cause cause = Cause::family_by_itself;
  std::size_t index = 0;  ///< into Tables::changes (known_change, outside_donor) or Tables::conversions; else 0
  double p = 0;           ///< P(it | everything, and the feature is not of the type as built); the explanations of a feature sum to 1
};

/// What the evidence says of one observed feature. "Type as built" (T): the value that is there now is the value with which
/// this build left the works, whether or not it is the very part.
struct FeatureFinding {
  FeatureIndex feature;
  std::size_t seen = 0;        ///< index into Evidence::seen
  double p_type = 0;           ///< P(T | everything)
  double p_type_spoken = 0;    ///< P(T, and the pack speaks | everything)
  double p_later_spoken = 0;   ///< P(not T, and the pack speaks | everything)
  double p_silent = 0;         ///< P(the pack is silent on the build | everything)
  double p_before = 0;         ///< P(T | all but this observation)
  double likelihood_ratio = 1; ///< P(o_f | T, all else) / P(o_f | not T, all else)
  double p_untouched = 0;      ///< P(neither altered by itself, nor replaced, nor set by a conversion | everything)
  double p_misread = 0;        ///< P(what is there is not what was noted | everything)
  std::vector<double> there;   ///< [value]: P(the value that is there | everything)
  std::vector<double> works;   ///< [value]: expected works share, over the builds that remain
  std::vector<CauseOdds> explanations;  ///< likeliest first

  /// P(T | everything, and the pack speaks of the build): what a verdict goes by. 0.5 where it never speaks.
  double type_where_spoken() const { return p_silent < 1 ? p_type_spoken / (p_type_spoken + p_later_spoken) : 0.5; }
  bool silent() const { return p_silent > 0.5; }  ///< more likely than not the pack says nothing of the build
};

/// What the evidence says of an assembly that can be replaced as one.
struct AssemblyFinding {
  std::size_t assembly = 0;
  double p_replaced = 0;
  /// Of the donors, given that it was replaced: posterior by donor build, [build]; sums to 1 less the outside donors.
  std::vector<double> donor;
  std::vector<std::pair<std::size_t, double>> outside;  ///< later change, P(it | replaced)
  double p_unnamed = 0;                                 ///< P(from outside, by no change that the pack names | replaced)
};

/// Was a conversion had?
struct ConversionFinding {
  double p = 0;       ///< P(it was had | everything)
  bool seen = false;  ///< one of the features that it sets was looked at
};

std::vector<FeatureFinding> feature_findings(const Evidence& evidence, const Posterior& posterior);
std::vector<AssemblyFinding> assembly_findings(const Tables& tables, const Posterior& posterior);
/// [conversion of Tables::conversions]
std::vector<ConversionFinding> conversion_findings(const Tables& tables, const Evidence& evidence, const Posterior& posterior);

/// P(T) of one feature and P(o_u) with it, for one target and scenario, relative to P(o_u | target, scenario): the building block of the
/// above, of leaving out and of looking ahead. Every figure is a share of P(o_u | target, scenario).
struct TypeSplit {
  double type = 0, later = 0;                ///< with the observation
  double type_before = 0, later_before = 0;  ///< with the observation left out
};
/// `without`: a further position whose observation is left out, too.
TypeSplit split_type(const Unit& unit, const Unit::Target& target, Scenario scenario, std::size_t position, std::optional<std::size_t> without, double log_p);

}  // namespace exworks
