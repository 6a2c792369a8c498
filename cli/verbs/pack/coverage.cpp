#include <iostream>

#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "verbs/pack/common.hpp"
#include "report/kinds/coverage_report.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string family, rules;
  std::size_t n = 300, n_year = 20;
  std::uint64_t seed = 1;
  bool all = false, json = false, markdown = false;
};

std::vector<std::string> folders(const Options& options, const Rules& rules) {
  if (!options.all) return {find_pack_folder(options.family, rules)};
  std::vector<std::string> out;
  for (const auto& folder : pack_folders(rules)) out.push_back(folder.string());
  return out;
}

int run(const Options& options) {
  if (options.all != options.family.empty()) {
    std::cerr << "pack coverage wants one pack, or --all; name one of the two\n";
    return bad_usage;
  }
  std::string text;
  nlohmann::ordered_json json = nlohmann::ordered_json::array();
  const Rules rules = rules_folders(options.rules);
  for (const std::string& folder : folders(options, rules)) {
    const Tables tables = compile(read_pack_folder(folder, rules));
    if (options.all && options.markdown && tables.invented) continue;  // the README's table is of real families
    const std::size_t references = reference_vehicles(folder).size();
    const PackCoverage coverage = pack_coverage(tables, options.n, options.markdown ? 0 : options.n_year, options.seed, 2);
    if (options.json) json.push_back(json_coverage(tables, coverage, references));
    else if (options.markdown) text += markdown_coverage_row(tables, coverage, references);
    else text += text_coverage(tables, coverage, references, colour_wanted());
  }
  if (options.json) std::cout << (options.all ? json : json.front()).dump(2) << '\n';
  else if (options.markdown) std::cout << (options.all ? markdown_coverage_head() : "") << text;
  else std::cout << text;
  return done;
}

}  // namespace

void add_pack_coverage(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("coverage", "What a pack covers: which features date a vehicle and how finely, on what sources, and where it is silent");
  auto options = std::make_shared<Options>();
  verb->add_option("FAMILY", options->family, "the pack's name or folder");
  verb->add_flag("--all", options->all, "every pack in the folder of packs (with --markdown: every real one)");
  verb->add_option("-n", options->n, "vehicles to simulate for the median date windows; without it 300")->check(CLI::Range(1, 1'000'000));
  verb->add_option("--by-year", options->n_year, "vehicles to simulate for each generation and year; 0 leaves out the windows by year; without it 20")->check(CLI::Range(0, 100'000));
  verb->add_option("--seed", options->seed, "where the chance begins; same seed, same figures; without it 1");
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  auto* json = verb->add_flag("--json", options->json, "print JSON");
  verb->add_flag("--markdown", options->markdown, "print a row of the README's table (with --all: the table)")->excludes(json);
  verb->footer(std::string("Example: exworks pack coverage morris-minor\nExample: exworks pack coverage --all --markdown\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
