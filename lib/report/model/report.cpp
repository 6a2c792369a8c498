#include "report/model/report.hpp"

#include "report/model/report_kinds.hpp"
#include "report/kinds/parts.hpp"
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

namespace {

std::string masked(const std::string& number) {
  std::size_t keep = 0;
  for (std::size_t n = 0; keep < number.size() && n < 3; ++n) {
    ++keep;
    while (keep < number.size() && (static_cast<unsigned char>(number[keep]) & 0xC0u) == 0x80u) ++keep;
  }
  return number.substr(0, keep) + "…";
}

}  // namespace

void redact(Assessment& a, Inspection& in) {
  in.by.clear();
  in.note.clear();
  in.file.clear();
  in.vehicle.clear();
  in.reference.clear();
  for (NumberSeen& n : in.numbers) {
    n.text = masked(n.text);
    n.note.clear();
    n.photo.clear();
  }
  for (NumberVerdict& v : a.numbers) {
    v.text = masked(v.text);
    v.unread.reset();
    if (!v.reading) continue;
    v.reading->serial.reset();
    v.reading->slips.clear();
    std::erase_if(v.reading->parts, [](const PartReading& p) { return !p.code; });  // the serial and its like
  }
  for (Observation& o : in.observations) {
    o.note.clear();
    o.photo.clear();
  }
  for (DateCode& c : in.codes) c.note.clear();
  for (Claim& c : in.claims) {
    c.by.clear();
    c.note.clear();
  }
  for (Document& d : in.documents) d.note.clear();
}

}  // namespace exworks
