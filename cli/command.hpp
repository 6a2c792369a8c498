#pragma once
#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <sstream>
#include <string>

#include "base/diagnostic.hpp"
#include "record/inspection.hpp"
#include "workshop/packs.hpp"

/// What every verb shares. The exit codes are printed by every --help.
namespace exworks::cli {

enum Exit : int { done = 0, answer_is_no = 1, bad_usage = 2, bad_input = 3, cannot_read_or_write = 4 };

/// Thrown when what was asked makes no sense; main prints it and ends with bad_usage.
struct BadUsage {
  std::string what;  ///< what is wrong; what to do
};

/// Thrown when a file that a person wrote has mistakes: they have been printed, and the run ends with bad_input.
struct BadInput {};

/// --rules, else $EXWORKS_RULES, alone; without either the user's private packs, when there are any, and then the packs that
/// this program was built or installed with.
Rules rules_folders(const std::string& option);

/// Reads an inspection; "-" is standard input. Throws BadInput after printing what is wrong with it.
Inspection load_inspection(const std::string& file);

/// What a verb is about to write keeps a file of that name that is there, unless --overwrite is given: throws FileError.
/// To be called before the work is done. A verb without a file to write passes an empty name.
void refuse_existing(const std::filesystem::path& file, bool overwrite);

/// To standard error, each line without what could steer a terminal.
void tell_lines(const std::string& text);

/// A line to standard error, for whoever called the command: what is wrong and what to do, or what else there is to know.
template <class... Parts>
void tell(const Parts&... parts) {
  std::ostringstream text;
  (text << ... << parts);
  tell_lines(text.str());
}

/// So many messages a run are shown unless every one is asked for.
inline constexpr std::size_t message_limit = 20;

/// Errors (and, when `all`, warnings and notes) to standard error: the `message_limit` most serious, and how many more there are.
void print(const Diagnostics& diagnostics, bool all);

/// A result to standard output. A name from the file system that is no UTF-8 is shown with replacement characters.
void print_json(const nlohmann::ordered_json& result);

/// Colour on standard output: only on a terminal, without NO_COLOR, and not when TERM is dumb.
bool colour_wanted();

}  // namespace exworks::cli
