#include <iostream>

#include "base/file.hpp"
#include "base/text.hpp"
#include "describe.hpp"

namespace {

/// What a wrong command line gets: what is wrong, and what to do. A mistyped command gets the nearest one.
std::string usage_mistake(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
  const CLI::App* at = &app;
  std::string path = "exworks";
  for (int i = 1; i < argc && argv[i][0] != '-'; ++i) {
    std::vector<std::string> names;
    const CLI::App* next = nullptr;
    for (const CLI::App* sub : at->get_subcommands([](const CLI::App*) { return true; })) {
      names.push_back(sub->get_name());
      if (sub->get_name() == argv[i]) next = sub;
    }
    if (names.empty()) break;
    if (next == nullptr) return path + " has no command '" + argv[i] + "'; " + exworks::did_you_mean(argv[i], names, "see " + path + " --help");
    at = next;
    path += " " + at->get_name();
  }
  return std::string(error.what()) + "; see " + path + " --help";
}

}  // namespace

int main(int argc, char** argv) {
  using namespace exworks::cli;
  CLI::App app;
  Action action;
  describe(app, action);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    if (e.get_exit_code() == 0) return app.exit(e);
    std::cerr << usage_mistake(app, e, argc, argv) << '\n';
    return bad_usage;
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
