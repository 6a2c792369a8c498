#include <iostream>
#include <nlohmann/json.hpp>

#include "book/keep.hpp"
#include "command.hpp"
#include "log.hpp"
#include "report/render/page.hpp"
#include "verbs/book/verbs.hpp"
#include "verbs/open_book.hpp"
#include "words/english/english.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

using Json = nlohmann::ordered_json;

}  // namespace

int run(const BookMergeArguments& options) {
  Book book = open_book(options);
  const Merged m = merge_book(book, options.file);
  log(LogLevel::info, "merged", {{"jobs", m.jobs}, {"entries", m.changes}, {"assessments", m.assessments}, {"photos", m.photos}, {"conflicts", m.conflicts.size()}});
  if (options.json) {
    Json out = {{"jobs", m.jobs}, {"entries", m.changes}, {"assessments", m.assessments}, {"photos", m.photos}, {"conflicts", Json::array()}};
    for (const Conflict& c : m.conflicts) out["conflicts"].push_back({{"job", c.job}, {"kind", c.kind}, {"name", c.name}, {"ours", to_json(c.ours, false)}, {"theirs", to_json(c.theirs, false)}});
    print_json(out);
  } else {
    std::cout << counted(m.jobs, "new job") << ", " << counted(m.changes, "entry", "entries") << ", " << counted(m.assessments, "assessment") << ", " << counted(m.photos, "photo") << " taken in\n";
    for (const Conflict& c : m.conflicts) {
      std::cout << harmless("job " + std::to_string(c.job) + ", " + c.kind + " " + c.name) << ":\n  here:  " << words_of(c.ours, false) << " (" << harmless(c.ours.by) << ", " << c.ours.at
                << ")\n  there: " << words_of(c.theirs, false) << " (" << harmless(c.theirs.by) << ", " << c.theirs.at << ")\n";
    }
    if (!m.conflicts.empty()) std::cout << "What stood here stays until 'exworks job set' settles it; both are in the history.\n";
  }
  return m.conflicts.empty() ? done : answer_is_no;
}

}  // namespace exworks::cli
