#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "engine/evidence/given.hpp"
#include "verbs/open_book.hpp"
#include "verbs/output.hpp"
#include "verbs/verbs.hpp"
#include "workshop/jobs.hpp"
#include "workshop/make_report.hpp"
#include "workshop/photos.hpp"
#include "workshop/schemes.hpp"

namespace exworks::cli {

namespace {

using Options = ReportArguments;

std::optional<ReportSubject> subject_of(const Options& o, Diagnostics& diagnostics) {
  if (o.of_book) {
    Book book = open_existing_book(o.book);
    return subject_of_job(book, find_job(book, o.subject), diagnostics);
  }
  ReportSubject subject{load_inspection(o.subject), {}, {}};
  if (!o.redacted) subject.photos = load_photos(subject.inspection, o.subject, diagnostics);
  return subject;
}

std::vector<Comparable> load_sales(const std::string& file) {
  Diagnostics diagnostics;
  auto sales = read_comparables(read_file(file), file, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) throw BadInput{};
  return sales;
}

}  // namespace

int run(const ReportArguments& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  ReportWanted wanted{report_options(o.kind, o.terms, o.paper, o.date), {}, o.redacted, std::nullopt, {}};
  if (!parse_day(wanted.options.date)) {
    tell("--date '", wanted.options.date, "' is not a day; write it 2026-11-20");
    return bad_usage;
  }
  Diagnostics diagnostics;
  auto subject = subject_of(o, diagnostics);
  print(diagnostics, true);
  if (!subject) return bad_input;
  const std::string family = o.family.empty() ? subject->inspection.family : o.family;
  if (family.empty()) {
    tell((o.of_book ? "job " : ""), o.subject, ": the inspection names no family; add family=\"...\" to it, or give --family");
    return bad_usage;
  }
  const Rules rules = rules_folders(o.book.rules);
  const Tables tables = load_tables(family, rules);
  Diagnostics conditions;
  wanted.given = parse_given(tables, o.given, {"--given", 0, 0}, conditions);
  print(conditions, true);
  if (conditions.has_errors()) return bad_usage;
  if (!o.sales.empty()) {
    wanted.value = ValueWanted{load_sales(o.sales), o.condition, o.trend, o.rate, o.parts};
  }
  wanted.schemes = o.schemes.empty() ? schemes_for(load_schemes(rules), wanted.options.region) : choose_schemes(load_schemes(rules), o.schemes);
  Diagnostics judged;
  const auto made = make_report(tables, std::move(*subject), wanted, judged);
  print(judged, true);
  if (!made) return bad_input;
  write_output(o.output, ending, made->html, made->text);
  if (o.book.json) {
    nlohmann::ordered_json out = {{"format", 1}, {"written", o.output}, {"kind", o.kind}, {"paper", wanted.options.paper}, {"language", language_of(wanted.options.region)}, {"date", wanted.options.date}};
    out.update(*made->contents);
    print_json(out);
  }
  return done;
}

}  // namespace exworks::cli
