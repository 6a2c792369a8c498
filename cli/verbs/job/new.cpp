#include <iostream>
#include <nlohmann/json.hpp>

#include "base/date.hpp"
#include "command.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

void check_date(const std::string& date) {
  std::string why;
  if (date.empty() || parse_edge(date, &why)) return;
  tell("--date '", date, "': ", why, "; write it as 2026-11 or 2026-11-20");
  throw BadInput{};
}

}  // namespace

int run(const JobNewArguments& options) {
  check_date(options.date);
  std::vector<Entry> entries{about("state", "open"), about("purpose", options.purpose)};
  const std::pair<const char*, const std::string&> said[] = {{"family", options.family}, {"name", options.name},   {"reference", options.reference}, {"owner", options.owner},
                                                             {"date", options.date},     {"note", options.note}};
  for (const auto& [name, value] : said) {
    require_text(std::string("--") + name, value);
    if (!value.empty()) entries.push_back(about(name, value));
  }
  entries.push_back(about("by", who(options)));
  Book book = open_book(options);
  const std::int64_t job = book.new_job(entries, who(options), options.vehicle_of > 0 ? std::optional(options.vehicle_of) : std::nullopt);
  if (options.json) print_json(nlohmann::ordered_json{{"job", job}, {"vehicle", book.job(job).vehicle}, {"book", book.path().string()}});
  else std::cout << "job " << job << '\n';
  return done;
}

}  // namespace exworks::cli
