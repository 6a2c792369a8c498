#include "options/options.hpp"
#include "verbs/verbs.hpp"

namespace exworks::cli {

namespace {

/// For --parts: an id, an equals sign and an amount.
std::string check_parts(const std::string& text) {
  const std::size_t cut = text.find('=');
  if (cut == 0 || cut == std::string::npos || text.find_first_not_of("0123456789.", cut + 1) != std::string::npos || cut + 1 == text.size() || text.size() - cut > 16 || text[cut + 1] == '.') return "write it CHANGE=AMOUNT, such as engine-1098=450";
  return {};
}

}  // namespace

void add_report(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("report", "A report for a buyer, a workshop's intake or the owner, as HTML, PDF or text");
  auto options = std::make_shared<ReportArguments>();
  verb->add_option("FILE", options->subject, "the inspection (XML; - for standard input), its photos beside it; with --book, a job's number or reference")->required();
  verb->add_option("-o,--output", options->output, "the file to write: its ending .html, .pdf or .txt decides the form")->required();
  verb->add_option("--kind", options->kind, "whom it is for: pre-purchase, intake or owner; without it pre-purchase")->check(CLI::IsMember({"pre-purchase", "intake", "owner"}));
  verb->add_option("--terms", options->terms, "trade terms, dates and units: en-GB, en-US or en-AU; without it en-GB")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the report's date, 2026-11-20; without it today");
  verb->add_option("--given", options->given, "take as true, as for assess (may be repeated)")->allow_extra_args(false);
  verb->add_option("--scheme", options->schemes, "how this published classification would take it: an id, or a group such as eu or de (may be repeated); without it those of the country of the terms, and those of no one country")->allow_extra_args(false);
  verb->add_option("--sales", options->sales, "comparable sales for the owner's note on value (CSV: date,price,currency,year,variant,condition,originality,note)");
  verb->add_option("--condition", options->condition, "the vehicle's condition for the note, 1 (best) to 5")->check(CLI::Range(1, 5));
  verb->add_option("--trend", options->trend, "how prices change, in per cent a year")->check(within(-50.0, 50.0));
  verb->add_option("--rate", options->rate, "an hour of work, in the currency of the sales")->check(within(0.0, 1e6));
  verb->add_option("--parts", options->parts, "parts to put a change back: CHANGE=AMOUNT or FEATURE=AMOUNT (may be repeated)")->check(check_parts);
  verb->add_flag("--redact", options->redacted, "leave out numbers, references, names, notes and photos");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  add_rules_option(*verb, options->book.rules);
  auto* book = verb->add_option("--book", options->book.book, "report on a job of this job book, with its photos and its history");
  verb->add_flag("--json", options->book.json, "print everything that the report says as JSON");
  add_footer(*verb, "Example: exworks report sample-vehicles/morris-minor-1950-saloon.xml --kind owner -o owner.pdf\n         exworks report 12 --book workshop.db --kind intake -o intake.pdf\n");
  calls(*verb, options, book, action);
}

void add_sheet(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("sheet", "An inspection sheet for clipboard and pencil");
  auto options = std::make_shared<SheetArguments>();
  verb->add_option("FAMILY", options->family, "the pack, such as morris-minor; with --for that of the inspection");
  verb->add_option("-o,--output", options->output, "the file to write: .pdf, .html or .txt")->required();
  verb->add_option("--for", options->begun, "an inspection begun, or with --book a job's number or reference: only what is still open");
  auto* book = verb->add_option("--book", options->book.book, "the job book that --for means");
  verb->add_option("--minutes", options->minutes, "a short sheet: only what is worth most in this time")->check(within(1.0, 10000.0));
  verb->add_option("--terms", options->terms, "trade terms: en-GB, en-US or en-AU; without it en-GB")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the date to print; without it today");
  add_overwrite_option(*verb, options->overwrite);
  add_rules_option(*verb, options->book.rules);
  verb->add_flag("--json", options->book.json, "print what the sheet asks for as JSON");
  add_footer(*verb, "Example: exworks sheet morris-minor --minutes 20 -o sheet.pdf\n         exworks sheet --for 12 --book workshop.db -o still-open.pdf\n");
  calls(*verb, options, book, action);
}

void add_scheme(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("scheme", "How published classifications would take the vehicle; only the named body decides");
  auto options = std::make_shared<SchemeArguments>();
  verb->add_option("FILE", options->file, "the inspection (XML; - for standard input); with --book, a job's number or reference");
  verb->add_option("--scheme", options->wanted, "only these: an id, or a group such as gb or fiva (may be repeated)")->allow_extra_args(false);
  verb->add_flag("--list", options->list, "list the schemes with the questions that <answer> lines of an inspection can answer");
  verb->add_option("--date", options->date, "the day that counts, 2026-11-20; without it today");
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  verb->add_option("--rules", options->rules, "the folder of packs; schemes are in its folder scheme");
  auto* book = verb->add_option("--book", options->book.book, "take a job of this job book");
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks scheme sample-vehicles/morris-minor-1950-saloon.xml --scheme gb --date 2026-11-20\n");
  calls(*verb, options, book, action);
}

}  // namespace exworks::cli
