#include <iostream>

#include "base/file.hpp"
#include "describe.hpp"

int main(int argc, char** argv) {
  using namespace exworks::cli;
  CLI::App app;
  Action action;
  describe(app, action);
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
