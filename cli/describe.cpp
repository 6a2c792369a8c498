#include "describe.hpp"

namespace exworks::cli {

void describe(CLI::App& app, Action& action) {
  app.name("exworks");
  app.description("exworks: which build is this old vehicle, and which of its parts are as it left the works?");
  app.set_version_flag("--version", std::string("exworks " EXWORKS_VERSION ", pack format 1, inspection format 1"));
  app.require_subcommand(1);
  app.footer(std::string("Example: exworks assess sample-vehicles/morris-minor-1950-saloon.xml\nEvery command answers --help. To learn what a report says and how to write a pack: rules/handbook.\n") + exit_codes);
  add_assess(app, action);
  add_number(app, action);
  add_learn(app, action);
  add_next(app, action);
  add_trial(app, action);
  add_pack(app, action);
  add_job(app, action);
  add_book(app, action);
  add_report(app, action);
  add_sheet(app, action);
  add_scheme(app, action);
  add_serve(app, action);
}

}  // namespace exworks::cli
