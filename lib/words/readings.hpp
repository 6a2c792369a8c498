#pragma once
#include <string>

#include "assess/case.hpp"

namespace exworks {

/// The condition: "the number is the vehicle's own", "as claimed: built 1950".
std::string condition_words(const Case& of, const Reading& reading);
/// "Taken that the number is the vehicle's own", "Taken as claimed: built 1950"
std::string taken_words(const Case& of, const Reading& reading);

/// What it is then: "a Series MM saloon, Home market, built Mar 1950 to Jun 1950".
std::string build_words(const Tables& tables, const Reading& reading);
/// "Then 2 are later changes: Starter (key) and Lamps (high)."
std::string later_words(const Tables& tables, const Reading& reading);

}  // namespace exworks
