#pragma once
#include <string>

#include "assess/questions/next_checks.hpp"

namespace exworks {

/// Why there is nothing to look at; "" when there is.
std::string next_note(const NextChecks& next);

}  // namespace exworks
