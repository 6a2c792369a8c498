#include "report/kinds/parts.hpp"
#include "report/kinds/report_kinds.hpp"
#include "words/remarks.hpp"

namespace exworks {

Report blank_report(const ReportInput& in, const ReportOptions& options, const std::string& kind) {
  Report d;
  d.language = language_of(options.region);
  d.paper = options.paper;
  d.kind = kind;
  const std::string name = vehicle_name(in.inspection);
  d.title = name.empty() ? in.tables.name : name;
  std::string line = in.tables.name;
  if (!in.inspection.reference.empty()) line += "; reference " + in.inspection.reference;
  d.particulars.push_back(line);
  line.clear();
  if (in.assessment.inspected) line = "Inspected " + to_words(*in.assessment.inspected) + (in.inspection.by.empty() ? "" : " by " + in.inspection.by) + "; ";
  d.particulars.push_back(line + "report of " + long_date(options.date, options.region));
  if (in.tables.invented) d.particulars.push_back("The family is invented, for practice.");
  return d;
}

Report build_report(const ReportInput& in, const ReportOptions& options) {
  switch (options.kind) {
    case ReportKind::intake: return intake_report(in, options);
    case ReportKind::owner: return owner_report(in, options);
    case ReportKind::pre_purchase: break;
  }
  return purchase_report(in, options);
}

}  // namespace exworks
