#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "report/json/document_json.hpp"
#include "report/kinds/sheet.hpp"
#include "report/render/render.hpp"
#include "verbs/open_book.hpp"
#include "verbs/output.hpp"
#include "verbs/verbs.hpp"
#include "words/english/terms.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"
#include "workshop/make_report.hpp"

namespace exworks::cli {

namespace {

using Options = SheetArguments;

/// What was looked at before: an inspection, a job of the book, or nothing.
Inspection begun(const Options& o) {
  if (o.begun.empty()) return {};
  if (!o.of_book) return load_inspection(o.begun);
  Book book = open_existing_book(o.book);
  Diagnostics diagnostics;
  auto inspection = inspection_of_job(book, find_job(book, o.begun), diagnostics);
  print(diagnostics, true);
  if (!inspection) throw BadInput{};
  return *inspection;
}

}  // namespace

int run(const SheetArguments& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  const Inspection inspection = begun(o);
  const std::string family = o.family.empty() ? inspection.family : o.family;
  if (family.empty() || (o.of_book && o.begun.empty())) {
    tell(family.empty() ? "name the pack, such as morris-minor, or an inspection that names it with --for" : "--book goes with --for JOB");
    return bad_usage;
  }
  const ReportOptions common = report_options("", o.terms, o.paper, o.date);
  SheetOptions options;
  options.region = common.region;
  options.paper = common.paper;
  options.date = common.date;
  options.minutes = o.minutes;
  const Tables tables = in_terms(load_tables(family, rules_folders(o.book.rules)), options.region);
  Diagnostics diagnostics;
  const NextChecks next = next_checks(tables, inspection, Aim::both, std::nullopt, 1000, diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics, true);
    return bad_input;
  }
  const Report sheet = inspection_sheet(tables, inspection, next, options);
  write_output(o.output, ending, ending == "txt" ? "" : render_html(tables, sheet), ending == "txt" ? render_text(tables, sheet) : "");
  if (o.book.json) {
    nlohmann::ordered_json out = {{"format", 1}, {"written", o.output}, {"family", family}, {"paper", options.paper}, {"language", sheet.language}, {"date", options.date}};
    out.update(sheet_contents(tables, sheet, next));
    print_json(out);
  }
  return done;
}

}  // namespace exworks::cli
