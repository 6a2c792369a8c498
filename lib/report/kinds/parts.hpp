#pragma once
#include "report/model/report.hpp"

/// The sections that the kinds of report share.
namespace exworks::parts {

Mark agreement_mark(const NumberVerdict& number);

void build_section(Report& d, const ReportInput& in);
void claims_section(Report& d, const ReportInput& in);
void numbers_section(Report& d, const ReportInput& in);
/// Date codes on parts: tyres, glass, castings.
void codes_section(Report& d, const ReportInput& in);
void papers_section(Report& d, const ReportInput& in);
void readings_section(Report& d, const ReportInput& in);
void later_section(Report& d, const ReportInput& in);
void uncertain_section(Report& d, const ReportInput& in);
void original_section(Report& d, const ReportInput& in, Region region);
void not_judged_section(Report& d, const ReportInput& in);
void next_section(Report& d, const ReportInput& in);
void score_section(Report& d, const ReportInput& in);
void photos_section(Report& d, const ReportInput& in, Region region);
/// How published classifications would take the vehicle: those in force on the report's date. `brief` leaves the
/// published texts, and what was taken for granted, to the owner's report and to the JSON.
void schemes_section(Report& d, const ReportInput& in, bool brief);
/// What the job book remembers: what was said anew, and earlier assessments.
void record_section(Report& d, const ReportInput& in, Region region);
void cautions_section(Report& d, const ReportInput& in);
/// How to read the report, the scales, the settings, the sources and what made it.
void closing(Report& d, const ReportInput& in, const ReportOptions& options);

}  // namespace exworks::parts
