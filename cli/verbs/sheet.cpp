#include <iostream>

#include "base/file.hpp"
#include "workshop/book_common.hpp"
#include "workshop/book_inspection.hpp"
#include "command.hpp"
#include "workshop/make_report.hpp"
#include "pdf.hpp"
#include "report/render/render.hpp"
#include "report/json/document_json.hpp"
#include "report/kinds/sheet.hpp"
#include "words/terms.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string family, begun, output, paper, terms = "en-GB", date;
  BookOptions book;
  bool of_book = false;
  double minutes = 0;
  bool overwrite = false;
};

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

int run(const Options& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  const Inspection inspection = begun(o);
  const std::string family = o.family.empty() ? inspection.family : o.family;
  if (family.empty() || (o.of_book && o.begun.empty())) {
    std::cerr << (family.empty() ? "name the pack, such as morris-minor, or an inspection that names it with --for\n" : "--book goes with --for JOB\n");
    return bad_usage;
  }
  const ReportOptions common = report_options("", o.terms, o.paper, o.date);
  SheetOptions options;
  options.region = common.region;
  options.paper = common.paper;
  options.date = common.date;
  options.minutes = o.minutes;
  const Tables tables = in_terms(load_pack(rules_folders(o.book.rules), family), options.region);
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
    std::cout << out.dump(2) << '\n';
  }
  return done;
}

}  // namespace

void add_sheet(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("sheet", "An inspection sheet for clipboard and pencil");
  auto options = std::make_shared<Options>();
  verb->add_option("FAMILY", options->family, "the pack, such as morris-minor; with --for that of the inspection");
  verb->add_option("-o,--output", options->output, "the file to write: .pdf, .html or .txt")->required();
  verb->add_option("--for", options->begun, "an inspection begun, or with --book a job's number or reference: only what is still open");
  auto* book = verb->add_option("--book", options->book.book, "the job book that --for means");
  verb->add_option("--minutes", options->minutes, "a short sheet: only what is worth most in this time")->check(CLI::Range(1.0, 10000.0));
  verb->add_option("--terms", options->terms, "trade terms: en-GB, en-US or en-AU; without it en-GB")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the date to print; without it today");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--rules", options->book.rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->book.json, "print what the sheet asks for as JSON");
  verb->footer(std::string("Example: exworks sheet morris-minor --minutes 20 -o sheet.pdf\n         exworks sheet --for 12 --book workshop.db -o still-open.pdf\n") + exit_codes);
  verb->callback([options, book, &action] {
    options->of_book = book->count() > 0;
    action = [options] { return run(*options); };
  });
}

}  // namespace exworks::cli
