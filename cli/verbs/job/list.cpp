#include <iostream>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "command.hpp"
#include "report/render/page.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

using Options = JobListArguments;

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
    tell("--where '", text, "' is no filter; write NAME=VALUE, with NAME one of ", join_and(names));
    throw BadInput{};
  }
  return f;
}

}  // namespace

int run(const JobListArguments& options) {
  Book book = open_existing_book(options);
  const std::vector<Job> jobs = book.find(filter_of(options));
  if (options.json) {
    nlohmann::ordered_json out = nlohmann::ordered_json::array();
    for (const Job& j : jobs) out.push_back(to_json(j, options.redact));
    print_json(out);
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
  if (jobs.size() == options.most) tell("note: only the latest ", options.most, " are shown; --most shows more");
  return done;
}

}  // namespace exworks::cli
