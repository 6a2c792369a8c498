#include <iostream>

#include "base/text.hpp"
#include "workshop/book_common.hpp"
#include "report/render/page.hpp"

namespace exworks::cli {

namespace {

struct Options : BookOptions {
  std::vector<std::string> where;
  std::string words;
  std::size_t most = 50;
};

void set_date(Filter& f, const std::string& value) {
  const std::size_t dots = value.find("..");
  f.date_from = dots == std::string::npos ? value : value.substr(0, dots);
  f.date_to = dots == std::string::npos ? value : value.substr(dots + 2);
}

/// One NAME=VALUE of --where; false when there is no such filter.
bool set_filter(Filter& f, const std::string& name, const std::string& value) {
  if (name == "family") f.family = value;
  else if (name == "reference") f.reference = value;
  else if (name == "owner") f.owner = value;
  else if (name == "state") f.state = value;
  else if (name == "number") f.number = value;
  else if (name == "date") set_date(f, value);
  else if (name == "later") f.parts.emplace_back(value, "later change");
  else if (name == "original" || name == "uncertain") f.parts.emplace_back(value, name);
  else return false;
  return true;
}

Filter filter_of(const Options& options) {
  Filter f;
  f.words = options.words;
  f.most = options.most;
  for (const std::string& text : options.where) {
    const std::size_t at = text.find('=');
    if (at != std::string::npos && at + 1 < text.size() && set_filter(f, text.substr(0, at), text.substr(at + 1))) continue;
    static const std::vector<std::string> names{"family", "number", "reference", "owner", "date", "state", "later", "original", "uncertain"};
    std::cerr << "--where '" << text << "' is no filter; write NAME=VALUE, with NAME one of " << join_and(names) << '\n';
    throw BadInput{};
  }
  return f;
}

int run(const Options& options) {
  Book book = open_existing_book(options);
  const std::vector<Job> jobs = book.find(filter_of(options));
  if (options.json) {
    nlohmann::ordered_json out = nlohmann::ordered_json::array();
    for (const Job& j : jobs) out.push_back(to_json(j, options.redact));
    std::cout << out.dump(2) << '\n';
    return done;
  }
  for (const Job& j : jobs) {
    std::string line = "job " + std::to_string(j.id) + "  " + (j.state.empty() ? "open" : j.state) + "  " + (j.family.empty() ? "no family yet" : j.family);
    if (!j.date.empty()) line += "  " + j.date;
    if (!options.redact) {
      for (const std::string& text : {j.reference, j.name, j.owner}) line += text.empty() ? "" : "  " + text;
    }
    std::cout << harmless(line) << '\n';
  }
  if (jobs.size() == options.most) std::cerr << "note: only the latest " << options.most << " are shown; --most shows more\n";
  return done;
}

}  // namespace

void add_job_list(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("list", "Find jobs, the latest first; with --words those with the latest such note");
  auto options = std::make_shared<Options>();
  verb->add_option("--where", options->where,
                   "NAME=VALUE: family, number (its beginning will do), reference, owner, state, date (2026, 2026-11, or 2025..2026-03), "
                   "later, original or uncertain (a feature or assembly with that verdict); several narrow it")
      ->take_all()->allow_extra_args(false);
  verb->add_option("--words", options->words, "words that a note of the job holds");
  verb->add_option("--most", options->most, "how many to show; without it 50")->check(CLI::Range(1, 1'000'000));
  add_redact_option(*verb, *options);
  add_book_option(*verb, *options);
  add_json_option(*verb, *options);
  verb->footer(std::string("Example: exworks job list --where later=gearbox --where date=2025..2026\nExample: exworks job list --words \"drilled through\"\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
