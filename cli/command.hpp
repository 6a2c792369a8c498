#pragma once
#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"
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
void add_serve(CLI::App& app, Action& action);

/// The folders of packs, the first to be searched first.
using Rules = std::vector<std::filesystem::path>;

/// --rules, else $EXWORKS_RULES, alone; without either the user's private packs, when there are any, and then the packs that
/// this program was built or installed with.
Rules rules_folders(const std::string& option);

/// "A and B", for a message.
std::string words(const Rules& rules);

/// Reads a pack's folder; the pack that it extends may stand beside it, among `rules`, or among the installed ones.
std::optional<Pack> read_pack_among(const std::filesystem::path& folder, const Rules& rules, Diagnostics& diagnostics);

/// The folder that is meant: a folder as it stands, or the name of a pack among `rules`. Throws FileError.
std::string find_pack_folder(const std::string& named, const Rules& rules);

/// Reads a pack's folder; throws BadInput after printing what is wrong with it.
Pack read_pack_folder(const std::string& folder, const Rules& rules);

/// The pack of a folder or a name, by the option --rules.
Pack read_named_pack(const std::string& named, const std::string& rules_option);

/// Reads and compiles one pack; throws BadInput after printing what is wrong with it.
Tables load_pack(const Rules& rules, const std::string& family);

/// Every pack among `rules` but those that another of them extends.
std::vector<Tables> load_every_pack(const Rules& rules);

/// Reads an inspection; "-" is standard input. Throws BadInput after printing what is wrong with it.
Inspection load_inspection(const std::string& file);

/// What a verb is about to write keeps a file of that name that is there, unless --overwrite is given: throws FileError.
/// To be called before the work is done. A verb without a file to write passes an empty name.
void refuse_existing(const std::filesystem::path& file, bool overwrite);
void add_overwrite_option(CLI::App& verb, bool& overwrite);

/// So many messages a run are shown unless every one is asked for.
inline constexpr std::size_t message_limit = 20;

/// Errors (and, when `all`, warnings and notes) to standard error: the gravest `message_limit`, and how many more there are.
void print(const Diagnostics& diagnostics, bool all);

/// Colour on standard output: only on a terminal, without NO_COLOR, and not when TERM is dumb.
bool colour_wanted();

}  // namespace exworks::cli
