#include <iostream>

#include "base/file.hpp"
#include "workshop/book_common.hpp"
#include "command.hpp"
#include "engine/infer/given.hpp"
#include "workshop/make_report.hpp"
#include "pdf.hpp"
#include "workshop/photos.hpp"
#include "workshop/schemes.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string subject, kind = "pre-purchase", output, family, paper, terms = "en-GB", date, sales;
  BookOptions book;
  bool of_book = false;
  std::vector<std::string> given, schemes;
  ValueWanted value;
  bool redacted = false, overwrite = false;
};

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

int run(const Options& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  ReportWanted wanted{report_options(o.kind, o.terms, o.paper, o.date), {}, o.redacted, std::nullopt, {}};
  if (!parse_day(wanted.options.date)) {
    std::cerr << "--date '" << wanted.options.date << "' is not a day; write it 2026-11-20\n";
    return bad_usage;
  }
  Diagnostics diagnostics;
  auto subject = subject_of(o, diagnostics);
  print(diagnostics, true);
  if (!subject) return bad_input;
  const std::string family = o.family.empty() ? subject->inspection.family : o.family;
  if (family.empty()) {
    std::cerr << (o.of_book ? "job " : "") << o.subject << ": the inspection names no family; add family=\"...\" to it, or give --family\n";
    return bad_usage;
  }
  const Rules rules = rules_folders(o.book.rules);
  const Tables tables = load_pack(rules, family);
  Diagnostics conditions;
  wanted.given = parse_given(tables, o.given, {"--given", 0, 0}, conditions);
  print(conditions, true);
  if (conditions.has_errors()) return bad_usage;
  if (!o.sales.empty()) {
    wanted.value = o.value;
    wanted.value->sales = load_sales(o.sales);
  }
  wanted.schemes = o.schemes.empty() ? schemes_for(load_schemes(rules), wanted.options.region) : choose_schemes(load_schemes(rules), o.schemes);
  Diagnostics judged;
  const auto made = make_report(tables, std::move(*subject), wanted, judged);
  print(judged, true);
  if (!made) return bad_input;
  write_output(o.output, ending, made->html, made->text);
  if (o.book.json) {
    nlohmann::ordered_json out = {{"format", 1}, {"written", o.output}, {"kind", o.kind}, {"paper", wanted.options.paper}, {"language", language_of(wanted.options.region)}, {"date", wanted.options.date}};
    out.update(made->contents);
    std::cout << out.dump(2) << '\n';
  }
  return done;
}

/// For --parts: an id, an equals sign and an amount.
std::string check_parts(const std::string& text) {
  const std::size_t cut = text.find('=');
  if (cut == 0 || cut == std::string::npos || text.find_first_not_of("0123456789.", cut + 1) != std::string::npos || cut + 1 == text.size() || text.size() - cut > 16 || text[cut + 1] == '.') return "write it CHANGE=AMOUNT, such as engine-1098=450";
  return {};
}

}  // namespace

void add_report(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("report", "A report for a buyer, a workshop's intake or the owner, as HTML, PDF or text");
  auto options = std::make_shared<Options>();
  verb->add_option("FILE", options->subject, "the inspection (XML; - for standard input), its photos beside it; with --book, a job's number or reference")->required();
  verb->add_option("-o,--output", options->output, "the file to write: its ending .html, .pdf or .txt decides the form")->required();
  verb->add_option("--kind", options->kind, "whom it is for: pre-purchase, intake or owner; without it pre-purchase")->check(CLI::IsMember({"pre-purchase", "intake", "owner"}));
  verb->add_option("--terms", options->terms, "trade terms, dates and units: en-GB, en-US or en-AU; without it en-GB")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the report's date, 2026-11-20; without it today");
  verb->add_option("--given", options->given, "take as true, as for assess (may be repeated)")->allow_extra_args(false);
  verb->add_option("--scheme", options->schemes, "how this published classification would take it: an id, or a group such as eu or de (may be repeated); without it those of the country of the terms, and those of no one country")->allow_extra_args(false);
  verb->add_option("--sales", options->sales, "comparable sales for the owner's note on value (CSV: date,price,currency,year,variant,condition,originality,note)");
  verb->add_option("--condition", options->value.condition, "the vehicle's condition for the note, 1 (best) to 5")->check(CLI::Range(1, 5));
  verb->add_option("--trend", options->value.trend, "how prices change, in per cent a year")->check(CLI::Range(-50.0, 50.0));
  verb->add_option("--rate", options->value.rate, "an hour of work, in the currency of the sales")->check(CLI::Range(0.0, 1e6));
  verb->add_option("--parts", options->value.parts, "parts to put a change back: CHANGE=AMOUNT or FEATURE=AMOUNT (may be repeated)")->check(check_parts);
  verb->add_flag("--redact", options->redacted, "leave out numbers, references, names, notes and photos");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  verb->add_option("--rules", options->book.rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  auto* book = verb->add_option("--book", options->book.book, "report on a job of this job book, with its photos and its history");
  verb->add_flag("--json", options->book.json, "print everything that the report says as JSON");
  verb->footer(std::string("Example: exworks report sample-vehicles/morris-minor-1950-saloon.xml --kind owner -o owner.pdf\n         exworks report 12 --book workshop.db --kind intake -o intake.pdf\n") + exit_codes);
  verb->callback([options, book, &action] {
    options->of_book = book->count() > 0;
    action = [options] { return run(*options); };
  });
}

}  // namespace exworks::cli
