#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

int run(const JobCloseArguments& options) {
  Book book = open_existing_book(options);
  book.record(options.job, {about("state", options.reopen ? "open" : "closed")}, who(options));
  if (options.json) print_json(to_json(book.job(options.job), false));
  else std::cout << "job " << options.job << " is " << book.job(options.job).state << '\n';
  return done;
}

}  // namespace exworks::cli
