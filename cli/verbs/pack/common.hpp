#pragma once
#include "command.hpp"
#include "pack/model/pack.hpp"

/// The verbs of the group `pack` that read, draw, compare and write packs, and what they share.
namespace exworks::cli {

void add_pack_check(CLI::App& group, Action& action);
void add_pack_test(CLI::App& group, Action& action);
void add_pack_coverage(CLI::App& group, Action& action);
void add_pack_explain(CLI::App& group, Action& action);
void add_pack_timeline(CLI::App& group, Action& action);
void add_pack_diff(CLI::App& group, Action& action);
void add_pack_table(CLI::App& group, Action& action);
void add_pack_new(CLI::App& group, Action& action);

/// One expectation of a reference vehicle, and whether the pack meets it.
struct ReferenceLine {
  Place place;
  std::string what, found, source, note;
  bool met = false;
};

struct ReferenceResult {
  std::string vehicle;
  std::vector<ReferenceLine> lines;
  bool met = true;
};

/// Judges a reference vehicle by the pack; throws BadInput after printing what is wrong with the file.
ReferenceResult run_reference(const Tables& tables, const std::string& file);

/// The `*.xml` files of FOLDER/reference.
std::vector<std::string> reference_vehicles(const std::string& folder);

}  // namespace exworks::cli
