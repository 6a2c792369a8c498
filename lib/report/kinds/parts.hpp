#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/model/report.hpp"

/// The sections that the kinds of report share.
namespace exworks::parts {

/// Later changes that are one: brought by the same known change, or with the same replaced assembly. Indices into Assessment::features.
std::vector<std::vector<std::size_t>> change_groups(const Tables& tables, const Assessment& assessment);
/// What a group is called: the known change's name, or the feature and what was seen.
std::string group_name(const Tables& tables, const Assessment& assessment, const std::vector<std::size_t>& group);

/// One part of a claim with its own odds.
struct ClaimPart {
  std::string what;
  double p = 0;
  std::string found;  ///< what the observations show instead
};
std::vector<ClaimPart> claim_parts(const Tables& tables, const Assessment& assessment, const Claim& claim);

/// What a verdict says of a part of which nothing but its type is known (verdict/feature_verdict.cpp).
inline constexpr std::string_view part_unknown = "right type; not shown to be the part fitted when new";

/// "94 % (very likely)"
std::string odds_words(double p);
std::string ratio_words(double ratio);
std::string hours_words(double hours);
/// "It comes off again, about 4 hours.", or "" when nothing is known.
std::string going_back(const FeatureVerdict& feature);
/// The most likely build in a sentence.
std::string build_words(const Tables& tables, const Assessment& assessment);
/// "45 features were observed: 35 as built, 6 later changes, 4 uncertain."
std::string counts_words(const Assessment& assessment);

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
