#pragma once
#include <CLI/CLI.hpp>
#include <functional>
#include <string>

#include "base/diagnostic.hpp"
#include "compile/tables.hpp"
#include "record/inspection.hpp"

/// What every verb shares. Exit codes: one list, printed by every --help.
namespace exworks::cli {

enum Exit : int { done = 0, answer_is_no = 1, bad_usage = 2, bad_input = 3, cannot_read_or_write = 4 };

inline constexpr const char* exit_codes = "Exit codes: 0 done, 1 the answer of a check is no, 2 bad usage, 3 bad input, 4 can't read or write.";

/// Thrown when a file that a person wrote has mistakes: they have been printed, and the run ends with bad_input.
struct BadInput {};

/// Set by the verb that was called; main runs it.
using Action = std::function<int()>;

void add_assess(CLI::App& app, Action& action);
void add_number(CLI::App& app, Action& action);
void add_learn(CLI::App& app, Action& action);
void add_trial(CLI::App& app, Action& action);
void add_next(CLI::App& app, Action& action);
void add_pack(CLI::App& app, Action& action);
void add_job(CLI::App& app, Action& action);
void add_book(CLI::App& app, Action& action);
void add_report(CLI::App& app, Action& action);
void add_sheet(CLI::App& app, Action& action);
void add_scheme(CLI::App& app, Action& action);

/// The folder of packs: --rules, else $EXWORKS_RULES, else the one this program was built or installed with.
std::string rules_folder(const std::string& option);

/// Reads, checks and compiles one pack; throws BadInput after printing what is wrong with it.
Tables load_pack(const std::string& rules, const std::string& family);

/// Reads an inspection; "-" is standard input. Throws BadInput after printing what is wrong with it.
Inspection load_inspection(const std::string& file);

/// Errors (and, when `all`, warnings and notes) to standard error.
void print(const Diagnostics& diagnostics, bool all);

/// Colour on standard output: only on a terminal, without NO_COLOR, and not when TERM is dumb.
bool colour_wanted();

}  // namespace exworks::cli
