#include <iostream>

#include "base/file.hpp"
#include "command.hpp"

int main(int argc, char** argv) {
  using namespace exworks::cli;
  CLI::App app{"exworks: which build is this old vehicle, and which of its parts are as it left the works?", "exworks"};
  app.set_version_flag("--version", std::string("exworks " EXWORKS_VERSION ", pack format 1, inspection format 1"));
  app.require_subcommand(1);
  app.footer(exit_codes);
  Action action;
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
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? done : bad_usage;
  }
  try {
    return action();
  } catch (const BadInput&) {
    return bad_input;
  } catch (const exworks::FileError& e) {
    std::cerr << e.what << "; " << e.remedy << '\n';
    return cannot_read_or_write;
  } catch (const std::exception& e) {
    std::cerr << "exworks: " << e.what() << "; this is a fault of the program: please report it with the command that you ran\n";
    return cannot_read_or_write;
  }
}
