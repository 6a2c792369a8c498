#include <algorithm>
#include <iostream>

#include "base/text.hpp"
#include "workshop/book_common.hpp"
#include "workshop/book_inspection.hpp"
#include "command.hpp"
#include "pdf.hpp"
#include "report/kinds/scheme_report.hpp"
#include "workshop/schemes.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string file, family, rules, date;
  std::vector<std::string> wanted;
  BookOptions book;
  bool list = false, json = false;
};

int list(const std::vector<Scheme>& schemes, bool json) {
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (const Scheme& s : schemes) {
    if (json) out.push_back({{"id", s.id}, {"group", s.group}, {"name", s.name}, {"edition", s.edition}, {"decides", s.decides}});
    else std::cout << s.id << "  " << s.name << (s.edition.empty() ? "" : " (" + s.edition + ")") << '\n';
    if (json) continue;
    for (const SchemeQuestion& q : s.questions) {
      std::vector<std::string> ids;
      for (const SchemeAnswer& a : q.answers) ids.push_back(a.id);
      std::cout << "    " << q.id << ": " << q.ask << " " << join_or(ids) << '\n';
    }
  }
  if (json) std::cout << out.dump(2) << '\n';
  return done;
}

Inspection inspection_of(const Options& o, bool of_book) {
  if (!of_book) return load_inspection(o.file);
  Book book = open_existing_book(o.book);
  Diagnostics d;
  auto inspection = inspection_of_job(book, find_job(book, o.file), d);
  print(d, true);
  if (!inspection) throw BadInput{};
  return std::move(*inspection);
}

int run(const Options& o, bool of_book) {
  const Rules rules = rules_folders(o.rules);
  const std::vector<Scheme> schemes = choose_schemes(load_schemes(rules), o.wanted);
  if (o.list) return list(schemes, o.json);
  if (o.file.empty()) {
    std::cerr << "name the inspection to classify, or give --list\n";
    return bad_usage;
  }
  const CalendarDay today = report_day(o.date.empty() ? exworks::cli::today() : o.date);
  const Inspection inspection = inspection_of(o, of_book);
  const std::string family = o.family.empty() ? inspection.family : o.family;
  if (family.empty()) {
    std::cerr << o.file << ": the inspection names no family; add family=\"...\" to it, or give --family\n";
    return bad_usage;
  }
  const Tables tables = load_pack(rules, family);
  Diagnostics d;
  Settings settings;
  settings.fit_draws = 0;
  settings.readings = settings.hinges = false;
  const auto assessment = assess(tables, inspection, settings, {}, d);
  std::vector<SchemeVerdict> verdicts;
  if (assessment) verdicts = scheme_verdicts(schemes, tables, *assessment, inspection, today, d);
  print(d, true);
  if (!assessment) return bad_input;
  if (o.json) std::cout << json_schemes(tables, schemes, verdicts).dump(2) << '\n';
  else std::cout << text_schemes(tables, schemes, verdicts, colour_wanted());
  return done;
}

}  // namespace

void add_scheme(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("scheme", "How published classifications would take the vehicle; only the named body decides");
  auto options = std::make_shared<Options>();
  verb->add_option("FILE", options->file, "the inspection (XML; - for standard input); with --book, a job's number or reference");
  verb->add_option("--scheme", options->wanted, "only these: an id, or a group such as gb or fiva (may be repeated)")->allow_extra_args(false);
  verb->add_flag("--list", options->list, "list the schemes with the questions that <answer> lines of an inspection can answer");
  verb->add_option("--date", options->date, "the day that counts, 2026-11-20; without it today");
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  verb->add_option("--rules", options->rules, "the folder of packs; schemes are in its folder scheme");
  auto* book = verb->add_option("--book", options->book.book, "take a job of this job book");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks scheme sample-vehicles/morris-minor-1950-saloon.xml --scheme gb --date 2026-11-20\n") + exit_codes);
  verb->callback([options, book, &action] { action = [options, of_book = book->count() > 0] { return run(*options, of_book); }; });
}

}  // namespace exworks::cli
