#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "report/answers/coverage_report.hpp"
#include "verbs/pack/reference.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

using Options = PackCoverageArguments;

std::vector<std::string> folders(const Options& options, const Rules& rules) {
  if (!options.all) return {pack_or_folder(options.family, rules).string()};
  std::vector<std::string> out;
  for (const auto& folder : pack_folders(rules.folders)) out.push_back(folder.string());
  return out;
}

}  // namespace

int run(const PackCoverageArguments& options) {
  if (options.all != options.family.empty()) {
    tell("pack coverage wants one pack, or --all; name one of the two");
    return bad_usage;
  }
  std::string text;
  nlohmann::ordered_json json = nlohmann::ordered_json::array();
  const Rules rules = rules_folders(options.rules);
  for (const std::string& folder : folders(options, rules)) {
    const Tables tables = tables_of(load_pack(folder, rules));
    if (options.all && options.markdown && tables.invented) continue;  // the README's table is of real families
    const std::size_t references = reference_vehicles(folder).size();
    const PackCoverage coverage = pack_coverage(tables, options.n, options.markdown ? 0 : options.n_year, options.seed);
    if (options.json) json.push_back(json_coverage(tables, coverage, references));
    else if (options.markdown) text += markdown_coverage_row(tables, coverage, references);
    else text += text_coverage(tables, coverage, references, colour_wanted());
  }
  if (options.json) print_json((options.all ? json : json.front()));
  else if (options.markdown) std::cout << (options.all ? markdown_coverage_head() : "") << text;
  else std::cout << text;
  return done;
}

}  // namespace exworks::cli
