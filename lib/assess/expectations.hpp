#pragma once
#include <string>
#include <vector>

#include "assess/assessment.hpp"

namespace exworks {

struct ExpectationResult {
  const Expectation* expectation = nullptr;
  std::string what;   ///< "generation mm"
  bool met = false;
  std::string found;  ///< what the assessment says instead
};

/// Compares an assessment with what its published description lets one expect. An unknown name in an expectation is an error.
std::vector<ExpectationResult> check_expectations(const Tables& tables, const Inspection& inspection, const Assessment& assessment, Diagnostics& diagnostics);

}  // namespace exworks
