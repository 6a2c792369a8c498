#pragma once
#include <vector>

#include "engine/infer/findings.hpp"
#include "assess/assessment.hpp"

namespace exworks {

/// What is known of every build that remains, for the wording of reasons.
struct Judge {
  const Tables& tables;
  const Inspection& inspection;
  const Evidence& evidence;
  const Posterior& posterior;
  const std::vector<FeatureFinding>& findings;
  const std::vector<AssemblyFinding>& assemblies;
  const Assessment& so_far;  ///< its marginals are filled
  const Settings& settings;
};

FeatureVerdict judge_feature(const Judge& judge, const FeatureFinding& finding);

/// A likelihood ratio in words, capped at "strong": the rates are judgement, not measured.
std::string strength_words(double ratio);

}  // namespace exworks
