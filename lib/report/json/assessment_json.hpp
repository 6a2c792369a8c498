#pragma once
#include <nlohmann/json_fwd.hpp>

#include "assess/case.hpp"

namespace exworks {

/// The assessment as JSON; the shape is documented in README.md.
nlohmann::ordered_json json_report(const Case& of);
nlohmann::ordered_json json_number(const Tables& tables, const NumberVerdict& number);

}  // namespace exworks
