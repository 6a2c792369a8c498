#include <algorithm>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "command.hpp"
#include "report/answers/scheme_report.hpp"
#include "verbs/open_book.hpp"
#include "verbs/verbs.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"
#include "workshop/make_report.hpp"
#include "workshop/schemes.hpp"

namespace exworks::cli {

namespace {

using Options = SchemeArguments;

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
  if (json) print_json(out);
  return done;
}

Inspection inspection_of(const Options& o) {
  if (!o.of_book) return load_inspection(o.file);
  Book book = open_existing_book(o.book);
  Diagnostics d;
  auto inspection = inspection_of_job(book, find_job(book, o.file), d);
  print(d, true);
  if (!inspection) throw BadInput{};
  return std::move(*inspection);
}

}  // namespace

int run(const SchemeArguments& o) {
  const Rules rules = rules_folders(o.rules);
  const std::vector<Scheme> schemes = choose_schemes(load_schemes(rules), o.wanted);
  if (o.list) return list(schemes, o.json);
  if (o.file.empty()) {
    tell("name the inspection to classify, or give --list");
    return bad_usage;
  }
  const CalendarDay today = report_day(o.date.empty() ? exworks::today() : o.date);
  const Inspection inspection = inspection_of(o);
  const std::string family = o.family.empty() ? inspection.family : o.family;
  if (family.empty()) {
    tell(o.file, ": the inspection names no family; add family=\"...\" to it, or give --family");
    return bad_usage;
  }
  const Tables tables = load_tables(family, rules);
  Diagnostics d;
  Settings settings;
  settings.fit_draws = 0;
  settings.readings = settings.hinges = false;
  const auto assessment = assess(tables, inspection, settings, {}, d);
  std::vector<SchemeVerdict> verdicts;
  if (assessment) verdicts = scheme_verdicts(schemes, tables, *assessment, inspection, today, d);
  print(d, true);
  if (!assessment) return bad_input;
  if (o.json) print_json(json_schemes(tables, schemes, verdicts));
  else std::cout << text_schemes(tables, schemes, verdicts, colour_wanted());
  return done;
}

}  // namespace exworks::cli
