#include "workshop/book_common.hpp"

namespace exworks::cli {

void add_job(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("job", "The job book: a vehicle's inspection over weeks, by several people, with all that was thought before");
  group->require_subcommand(1);
  group->footer(std::string("Example: exworks job new --family aldermoor-carrier --reference \"order 12\"\n") + exit_codes);
  add_job_new(*group, action);
  add_job_set(*group, action);
  add_job_list(*group, action);
  add_job_show(*group, action);
  add_job_files(*group, action);
  add_job_photo(*group, action);
  add_job_assess(*group, action);
}

}  // namespace exworks::cli
