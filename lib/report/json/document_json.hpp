#pragma once
#include <nlohmann/json_fwd.hpp>

#include "report/model/report.hpp"

namespace exworks {

/// What a report or a sheet says, for programs: every figure of the pages, not their wording alone.
nlohmann::ordered_json report_contents(const ReportInput& input, const Report& report);
nlohmann::ordered_json json_valuation(const Valuation& valuation);
nlohmann::ordered_json sheet_contents(const Tables& tables, const Report& sheet, const NextChecks& next);

}  // namespace exworks
