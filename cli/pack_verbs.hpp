#pragma once
#include "command.hpp"
#include "pack/pack.hpp"

/// The verbs of the group `pack` that read, draw, compare and write packs, and what they share.
namespace exworks::cli {

void add_pack_coverage(CLI::App& group, Action& action);
void add_pack_explain(CLI::App& group, Action& action);
void add_pack_timeline(CLI::App& group, Action& action);
void add_pack_diff(CLI::App& group, Action& action);
void add_pack_table(CLI::App& group, Action& action);
void add_pack_new(CLI::App& group, Action& action);

/// The folder that is meant: a folder as it stands, or the name of a pack in the folder of packs. Throws FileError.
std::string find_pack_folder(const std::string& named, const std::string& rules);

/// Reads a pack's folder; throws BadInput after printing what is wrong with it.
Pack read_pack_folder(const std::string& folder);

/// The `*.xml` files of FOLDER/reference.
std::vector<std::string> reference_vehicles(const std::string& folder);

}  // namespace exworks::cli
