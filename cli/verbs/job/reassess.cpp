#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "report/render/page.hpp"
#include "verbs/job/comparison.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/job_assessment.hpp"
#include "workshop/job_inspection.hpp"

namespace exworks::cli {

/// Assesses what the job holds now with the pack as it is now; keeps it, and says what moved since the last.
int run(const JobReassessArguments& options) {
  Book book = open_existing_book(options);
  const std::optional<std::int64_t> before = book.job(options.job).assessment;
  Packs packs(rules_folders(options.rules));
  const std::string xml = xml_of_entries(book.entries(options.job), false);
  try {
    const Assessed assessed = assess_xml(packs, xml, "job " + std::to_string(options.job), "", Settings{});
    book.add_assessments({to_store(options.job, xml, assessed)}, who(options));
  } catch (const Failed& f) {
    tell(f.why);
    return bad_input;
  }
  const StoredAssessment now = book.assessment(*book.job(options.job).assessment);
  const nlohmann::ordered_json c = comparison(before ? book.assessment(*before) : now, now);
  if (options.json) print_json(c);
  else if (before) std::cout << text_of_comparison(c);
  else std::cout << harmless("job " + std::to_string(options.job) + ": first assessment kept; " + build_of(now)) << '\n';
  return done;
}

}  // namespace exworks::cli
