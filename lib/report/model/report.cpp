#include "report/model/report.hpp"

#include "report/model/report_kinds.hpp"
#include "report/kinds/parts.hpp"

namespace exworks {

Report blank_report(const ReportInput& in, const ReportOptions& options, const std::string& kind) {
  Report d;
  d.language = language_of(options.region);
  d.paper = options.paper;
  d.kind = kind;
  d.title = in.assessment.vehicle.empty() ? in.tables.name : in.assessment.vehicle;
  std::string line = in.tables.name;
  if (!in.assessment.reference.empty()) line += "; reference " + in.assessment.reference;
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

void replace(std::string& text, const std::string& what, const std::string& with) {
  if (what.size() < 3) return;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) text.replace(at, what.size(), with);
}

}  // namespace

void redact(Assessment& a, Inspection& in) {
  in.by.clear();
  in.note.clear();
  a.reference.clear();
  a.vehicle.clear();
  for (NumberSeen& n : in.numbers) {
    const std::string mask = masked(n.text);
    for (NumberVerdict& v : a.numbers) replace(v.note, n.text, mask);
    for (std::string& r : a.remarks) replace(r, n.text, mask);
    for (Reading& r : a.readings) replace(r.given, n.text, mask);
    n.text = mask;
    n.note.clear();
    n.photo.clear();
  }
  for (NumberVerdict& v : a.numbers) {
    v.text = masked(v.text);
    v.slips.clear();
    std::erase_if(v.parts, [](const NumberPartWords& p) { return p.means.empty(); });  // the serial and its like
  }
  for (FeatureVerdict& f : a.features) f.how_noted.clear();
  for (Observation& o : in.observations) {
    o.note.clear();
    o.photo.clear();
  }
  for (Looked& l : a.missing) l.note.clear();
  for (Looked& l : a.cannot_tell) l.note.clear();
  for (CodeVerdict& c : a.codes) c.note.clear();
  // Who claimed it, and what a paper is said to show, are repeated within sentences.
  for (Claim& c : in.claims) {
    const std::string by = " by " + c.by;
    for (DocumentVerdict& d : a.documents) replace(d.words, by, "");
    for (Reading& r : a.readings) replace(r.given, by, "");
    for (std::string& r : a.remarks) replace(r, by, "");
    c.by.clear();
    c.note.clear();
  }
  for (ClaimVerdict& c : a.claims) c.by.clear();
  for (Document& x : in.documents) {
    for (std::string& r : a.remarks) replace(r, " (" + x.note + ")", "");
    x.note.clear();
  }
}

}  // namespace exworks
