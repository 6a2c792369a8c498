#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"
#include "record/inspection.hpp"

/// What every verb shares. The exit codes are printed by every --help.
namespace exworks::cli {

enum Exit : int { done = 0, answer_is_no = 1, bad_usage = 2, bad_input = 3, cannot_read_or_write = 4 };

/// Thrown when a file that a person wrote has mistakes: they have been printed, and the run ends with bad_input.
struct BadInput {};

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

/// Its tables; a pack beyond the limits is said on standard error, then throws BadInput.
Tables compile_pack(const Pack& pack);

/// Reads and compiles one pack; throws BadInput after printing what is wrong with it.
Tables load_pack(const Rules& rules, const std::string& family);

/// Every pack among `rules` but those that another of them extends.
std::vector<Tables> load_every_pack(const Rules& rules);

/// Reads an inspection; "-" is standard input. Throws BadInput after printing what is wrong with it.
Inspection load_inspection(const std::string& file);

/// What a verb is about to write keeps a file of that name that is there, unless --overwrite is given: throws FileError.
/// To be called before the work is done. A verb without a file to write passes an empty name.
void refuse_existing(const std::filesystem::path& file, bool overwrite);

/// So many messages a run are shown unless every one is asked for.
inline constexpr std::size_t message_limit = 20;

/// Errors (and, when `all`, warnings and notes) to standard error: the gravest `message_limit`, and how many more there are.
void print(const Diagnostics& diagnostics, bool all);

/// Colour on standard output: only on a terminal, without NO_COLOR, and not when TERM is dumb.
bool colour_wanted();

}  // namespace exworks::cli
