#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "verbs/job/job.hpp"
#include "workshop/book_common.hpp"
#include "workshop/book_inspection.hpp"

namespace exworks::cli {

int run(const JobCloseArguments& options) {
  Book book = open_existing_book(options);
  book.record(options.job, {about("state", options.reopen ? "open" : "closed")}, who(options));
  if (options.json) std::cout << to_json(book.job(options.job), false).dump(2) << '\n';
  else std::cout << "job " << options.job << " is " << book.job(options.job).state << '\n';
  return done;
}

}  // namespace exworks::cli
