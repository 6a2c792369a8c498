#pragma once
#include "assess/assessment.hpp"

namespace exworks {

/// Judges the same evidence under a condition: "taken as the numbered build", "as claimed".
Reading read_given(const Tables& tables, const Inspection& inspection, const Evidence& evidence, const Given& given, const Settings& settings, std::string words, double p);

/// What the answer hangs on: observations without which the leading variant no longer leads, and for each firm verdict those
/// without which it is no longer firm; at most two each, the weightiest first.
void fill_hinges(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings, Assessment& assessment);

}  // namespace exworks
