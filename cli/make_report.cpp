#include "make_report.hpp"

namespace exworks::cli {

std::optional<MadeReport> make_report(ReportWork work, const ReportOptions& options, Diagnostics& diagnostics) {
  auto assessment = assess(work.tables, work.inspection, Settings{}, work.given, diagnostics);
  if (!assessment) return std::nullopt;
  Diagnostics again;  // the same remarks as above
  const NextChecks next = next_checks(work.tables, work.inspection, Aim::both, std::nullopt, 8, again);
  if (work.redacted) redact(*assessment, work.inspection);
  const auto photos = work.redacted ? std::map<std::string, std::string>{} : work.photos(work.inspection);
  const std::optional<Valuation> value = work.value ? work.value(*assessment) : std::nullopt;
  const ReportInput input{work.tables, *assessment, work.inspection, next, photos, value ? &*value : nullptr};
  return MadeReport{build_report(input, options), photos.size()};
}

}  // namespace exworks::cli
