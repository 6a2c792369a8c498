#pragma once
#include "report/model/report.hpp"

namespace exworks {

/// The head that all kinds share.
Report blank_report(const ReportInput& in, const ReportOptions& options, const std::string& kind);

/// The report of the kind that the options name.
Report build_report(const ReportInput& in, const ReportOptions& options);

Report purchase_report(const ReportInput& in, const ReportOptions& options);
Report intake_report(const ReportInput& in, const ReportOptions& options);
Report owner_report(const ReportInput& in, const ReportOptions& options);

/// The note on value, a section of the owner's report.
void valuation_section(Report& d, const ReportInput& in, Region region);

}  // namespace exworks
