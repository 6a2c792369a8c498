#include <iostream>

#include "base/date.hpp"
#include "workshop/book_common.hpp"
#include "workshop/book_inspection.hpp"

namespace exworks::cli {

namespace {

struct Options : BookOptions {
  std::string family, name, reference, owner, purpose = "intake", date, note;
  std::int64_t vehicle_of = 0, job = 0;
  bool reopen = false;
};

void check_date(const std::string& date) {
  std::string why;
  if (date.empty() || parse_edge(date, &why)) return;
  std::cerr << "--date '" << date << "': " << why << "; write it as 2026-11 or 2026-11-20\n";
  throw BadInput{};
}

int run_new(const Options& options) {
  check_date(options.date);
  std::vector<Entry> entries{about("state", "open"), about("purpose", options.purpose)};
  const std::pair<const char*, const std::string&> said[] = {{"family", options.family}, {"name", options.name},   {"reference", options.reference}, {"owner", options.owner},
                                                             {"date", options.date},     {"note", options.note}};
  for (const auto& [name, value] : said) {
    check_text(std::string("--") + name, value);
    if (!value.empty()) entries.push_back(about(name, value));
  }
  entries.push_back(about("by", who(options)));
  Book book = open_book(options);
  const std::int64_t job = book.new_job(entries, who(options), options.vehicle_of > 0 ? std::optional(options.vehicle_of) : std::nullopt);
  if (options.json) std::cout << nlohmann::ordered_json{{"job", job}, {"vehicle", book.job(job).vehicle}, {"book", book.path().string()}}.dump(2) << '\n';
  else std::cout << "job " << job << '\n';
  return done;
}

int run_close(const Options& options) {
  Book book = open_existing_book(options);
  book.record(options.job, {about("state", options.reopen ? "open" : "closed")}, who(options));
  if (options.json) std::cout << to_json(book.job(options.job), false).dump(2) << '\n';
  else std::cout << "job " << options.job << " is " << book.job(options.job).state << '\n';
  return done;
}

}  // namespace

void add_job_new(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("new", "Begin a job and print its number");
  auto options = std::make_shared<Options>();
  verb->add_option("--family", options->family, "the pack to assess it by");
  verb->add_option("--name", options->name, "what the vehicle is called here");
  verb->add_option("--reference", options->reference, "the workshop's or the owner's reference");
  verb->add_option("--owner", options->owner, "the owner; never on an inspection or a report");
  verb->add_option("--purpose", options->purpose, "intake, pre-purchase or owner-note")->check(CLI::IsMember({"intake", "pre-purchase", "owner-note"}));
  verb->add_option("--date", options->date, "of the inspection, 2026-11-20");
  verb->add_option("--note", options->note, "anything that doesn't fit elsewhere");
  verb->add_option("--vehicle-of", options->vehicle_of, "the number of a job on the same vehicle")->check(CLI::PositiveNumber);
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, *options);
  verb->footer(std::string("Example: exworks job new --family aldermoor-carrier --reference \"order 12\" --date 2026-11-20\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run_new(*options); }; });

  auto* close = group.add_subcommand("close", "Mark a job as finished; it stays in the book, and can be opened again");
  auto closing = std::make_shared<Options>();
  close->add_option("JOB", closing->job, "the job's number")->required();
  close->add_flag("--reopen", closing->reopen, "open a closed job again");
  add_book_option(*close, *closing);
  add_by_option(*close, *closing);
  add_json_option(*close, *closing);
  close->footer(std::string("Example: exworks job close 12\n") + exit_codes);
  close->callback([closing, &action] { action = [closing] { return run_close(*closing); }; });
}

}  // namespace exworks::cli
