#pragma once
#include <string>

#include "assess/questions/expectations.hpp"

namespace exworks {

/// "generation mm", "built within 1950-01 to 1950-06"
std::string expected_words(const ExpectationResult& result);
/// What the assessment says of it: "mm 94 %".
std::string found_words(const Tables& tables, const Assessment& assessment, const ExpectationResult& result);

}  // namespace exworks
