#pragma once
#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "command.hpp"
#include "log.hpp"
#include "options/parse.hpp"
#include "verbs/book_options.hpp"

/// The command line: every verb with its options, help and examples. This folder and the manual alone know the library that parses it,
/// which is slow to compile; so a file holds a group of verbs, and the verbs themselves see plain arguments.
namespace exworks::cli {

/// The whole tree. The manual and the completions are made from it too.
void describe(CLI::App& app, Action& action);

void add_assess(CLI::App& app, Action& action);
void add_number(CLI::App& app, Action& action);
void add_learn(CLI::App& app, Action& action);
void add_next(CLI::App& app, Action& action);
void add_trial(CLI::App& app, Action& action);
void add_pack(CLI::App& app, Action& action);
void add_job(CLI::App& app, Action& action);
void add_book(CLI::App& app, Action& action);
void add_report(CLI::App& app, Action& action);
void add_sheet(CLI::App& app, Action& action);
void add_scheme(CLI::App& app, Action& action);
void add_serve(CLI::App& app, Action& action);

/// What stands below --help: `lines` (examples and remarks, each with its line end), and then the exit codes.
void add_footer(CLI::App& verb, const std::string& lines);

void add_rules_option(CLI::App& verb, std::string& rules);
void add_overwrite_option(CLI::App& verb, bool& overwrite);
void add_json_option(CLI::App& verb, bool& json);
void add_book_option(CLI::App& verb, BookOptions& options);
void add_by_option(CLI::App& verb, BookOptions& options);
void add_redact_option(CLI::App& verb, BookOptions& options);
/// A number of this range; "nan" is none.
CLI::Validator within(double least, double most);

void add_log_options(CLI::App& verb, LogOptions& options);

/// Runs a verb; one that works long opens the log first, and notes how it ended.
template <class Arguments>
int run_noted(const Arguments& arguments) {
  if constexpr (requires { arguments.log; }) {
    open_log(arguments.log);
    const Stopwatch watch;
    try {
      const int code = run(arguments);
      log(code == done ? LogLevel::info : LogLevel::warning, "finished", {{"exit", code}, {"ms", watch.milliseconds()}});
      return code;
    } catch (...) {
      log(LogLevel::error, "given up", {{"ms", watch.milliseconds()}});
      throw;
    }
  } else {
    return run(arguments);
  }
}

/// When the verb is called, `run(*arguments)` is what main has to do.
template <class Arguments>
void calls(CLI::App& verb, const std::shared_ptr<Arguments>& arguments, Action& action) {
  verb.callback([arguments, &action] { action = [arguments] { return run_noted(*arguments); }; });
}

/// The same for a verb that works on the job book when its option `book` is given.
template <class Arguments>
void calls(CLI::App& verb, const std::shared_ptr<Arguments>& arguments, const CLI::Option* book, Action& action) {
  verb.callback([arguments, book, &action] {
    arguments->of_book = book->count() > 0;
    action = [arguments] { return run_noted(*arguments); };
  });
}

}  // namespace exworks::cli
