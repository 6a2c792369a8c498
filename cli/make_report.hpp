#pragma once
#include <functional>

#include "report/report.hpp"

/// What a report of a file and one of a job share.
namespace exworks::cli {

struct ReportWork {
  const Tables& tables;  ///< in the terms of the report's region
  Inspection inspection;
  Given given;
  bool redacted = false;
  std::function<std::map<std::string, std::string>(const Inspection&)> photos;  ///< not asked when redacted
  std::function<std::optional<Valuation>(const Assessment&)> value;             ///< empty: no note on value
};

struct MadeReport {
  Report report;
  std::size_t photos = 0;
};

/// Assesses, looks ahead and lays out. Nothing is returned when the inspection has mistakes.
std::optional<MadeReport> make_report(ReportWork work, const ReportOptions& options, Diagnostics& diagnostics);

}  // namespace exworks::cli
