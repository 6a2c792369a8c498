#pragma once
#include <vector>

#include "assess/assessment.hpp"

namespace exworks {

/// What an expectation speaks of; one of its element can speak of several.
enum class ExpectedOf { generation, variant, body, market, plant, built, within, feature, number, undecided };

struct ExpectationResult {
  const Expectation* expectation = nullptr;
  ExpectedOf of = ExpectedOf::variant;
  bool met = false;
};

/// Compares an assessment with what its published description lets one expect. An unknown name in an expectation is an error.
std::vector<ExpectationResult> check_expectations(const Tables& tables, const Inspection& inspection, const Assessment& assessment, Diagnostics& diagnostics);

}  // namespace exworks
