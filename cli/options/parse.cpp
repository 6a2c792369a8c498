#include "options/parse.hpp"

#include <vector>

#include "base/text.hpp"
#include "options/options.hpp"

namespace exworks::cli {

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
    if (next == nullptr) return path + " has no command '" + argv[i] + "'; " + did_you_mean(argv[i], names, "see " + path + " --help");
    at = next;
    path += " " + at->get_name();
  }
  return std::string(error.what()) + "; see " + path + " --help";
}

}  // namespace

std::optional<int> parse(int argc, char** argv, Action& action) {
  // The action keeps the arguments that it needs; the tree itself is done with.
  CLI::App app;
  describe(app, action);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    if (e.get_exit_code() == 0) return app.exit(e);
    tell(usage_mistake(app, e, argc, argv));
    return bad_usage;
  }
  return std::nullopt;
}

void describe(CLI::App& app, Action& action) {
  app.name("exworks");
  app.description("exworks: which build is this old vehicle, and which of its parts are as it left the works?");
  app.set_version_flag("--version", std::string("exworks " EXWORKS_VERSION ", pack format 1, inspection format 1"));
  app.require_subcommand(1);
  add_footer(app, "Example: exworks assess sample-vehicles/morris-minor-1950-saloon.xml\nEvery command answers --help. To learn what a report says and how to write a pack: rules/handbook.\n");
  for (const auto add : {add_assess, add_number, add_learn, add_next, add_trial, add_pack, add_job, add_book, add_report, add_sheet, add_scheme, add_serve}) add(app, action);
}

void add_footer(CLI::App& verb, const std::string& lines) { verb.footer(lines + "Exit codes: 0 done, 1 the answer of a check is no, 2 bad usage, 3 bad input, 4 can't read or write."); }

void add_rules_option(CLI::App& verb, std::string& rules) { verb.add_option("--rules", rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program"); }
void add_overwrite_option(CLI::App& verb, bool& overwrite) { verb.add_flag("--overwrite", overwrite, "replace a file that is there"); }
void add_json_option(CLI::App& verb, bool& json) { verb.add_flag("--json", json, "print JSON"); }
void add_book_option(CLI::App& verb, BookOptions& options) { verb.add_option("--book", options.book, "the job book; without it $EXWORKS_BOOK, else the one in your data folder"); }
void add_by_option(CLI::App& verb, BookOptions& options) { verb.add_option("--by", options.by, "who says so; without it the name of your account"); }
CLI::Validator within(double least, double most) {
  const CLI::Validator range = CLI::Range(least, most);
  return CLI::Validator([range](std::string& text) { return text.find_first_of("nN") != std::string::npos ? "'" + text + "' is no number" : range(text); }, range.get_description());
}

void add_log_options(CLI::App& verb, LogOptions& options) {
  verb.add_option("--log-level", options.level, "how much is noted of the run itself (never of a vehicle or a person): debug, info, warning, error or off; without it $EXWORKS_LOG")
      ->check(CLI::IsMember(std::vector<std::string>(std::begin(Spelling<LogLevel>::words), std::end(Spelling<LogLevel>::words))));
  verb.add_flag("--log-json", options.json, "a line of JSON for each note");
}
void add_redact_option(CLI::App& verb, BookOptions& options) { verb.add_flag("--redact", options.redact, "leave out the owner, names, notes and all but the beginning of numbers"); }

}  // namespace exworks::cli
