#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "study/coverage.hpp"

namespace exworks {

/// `reference_vehicles`: how many the pack's folder holds; the tables don't know of them.
std::string text_coverage(const Tables& tables, const PackCoverage& coverage, std::size_t reference_vehicles, bool colour);
nlohmann::ordered_json json_coverage(const Tables& tables, const PackCoverage& coverage, std::size_t reference_vehicles);

/// The table of figures for the README: its head, and one row a pack.
std::string markdown_coverage_head();
std::string markdown_coverage_row(const Tables& tables, const PackCoverage& coverage, std::size_t reference_vehicles);

}  // namespace exworks
