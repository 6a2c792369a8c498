#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "assess/questions/next_checks.hpp"

namespace exworks {

std::string text_next(const Tables& tables, const NextChecks& next, bool colour);
nlohmann::ordered_json json_next(const Tables& tables, const NextChecks& next);

}  // namespace exworks
