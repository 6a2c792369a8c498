#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "record/inspection.hpp"
#include "report/document.hpp"
#include "verdict/next_checks.hpp"
#include "verdict/valuation.hpp"

/// What a buyer, a workshop and an owner read.
namespace exworks {

enum class ReportKind { pre_purchase, intake, owner };

/// How dates, money and measures are written; the trade's terms are swapped in the tables (report/terms.hpp).
enum class Region { en_GB, en_US, en_AU };
std::string_view language_of(Region region);

struct ReportInput {
  const Tables& tables;
  const Assessment& assessment;
  const Inspection& inspection;
  const NextChecks& next;
  std::map<std::string, std::string> photos;  ///< by the name in the inspection: a data: address, or "" when it could not be taken in
  const Valuation* valuation = nullptr;
};

struct ReportOptions {
  ReportKind kind = ReportKind::pre_purchase;
  Region region = Region::en_GB;
  std::string paper = "A4";
  std::string date;     ///< of the report, 2026-11-20
  std::string program;  ///< its name and version
};

Report build_report(const ReportInput& input, const ReportOptions& options);

/// "20 November 2026", or "November 20, 2026" for the United States.
std::string long_date(const std::string& iso, Region region);

/// "7 in (178 mm)" for a measure in a unit of length; other units are left as they are. The reader's own unit stands first.
std::string measure_words(double value, const std::string& unit, Region region);

/// Numbers, references and notes taken out, so that a report can be shown to strangers: a number keeps its first three characters.
void redact(Assessment& assessment, Inspection& inspection);

}  // namespace exworks
