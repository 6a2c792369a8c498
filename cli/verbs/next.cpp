#include <iostream>

#include "command.hpp"
#include "report/kinds/next_report.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string file, family, rules, aim = "both";
  double minutes = 0;
  std::size_t most = 8;
  bool json = false;
};

int run(const Options& options) {
  const Inspection inspection = load_inspection(options.file);
  const std::string family = options.family.empty() ? inspection.family : options.family;
  if (family.empty()) {
    std::cerr << options.file << ": the inspection names no family; add family=\"...\" to it, or give --family\n";
    return bad_usage;
  }
  const Tables tables = load_pack(rules_folders(options.rules), family);
  Diagnostics diagnostics;
  const Aim aim = options.aim == "build" ? Aim::build : options.aim == "verdicts" ? Aim::verdicts : Aim::both;
  const std::optional<double> budget = options.minutes > 0 ? std::optional(options.minutes) : std::nullopt;
  const NextChecks next = next_checks(tables, inspection, aim, budget, options.most, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) return bad_input;
  if (options.json) std::cout << json_next(tables, next).dump(2) << '\n';
  else std::cout << text_next(tables, next, colour_wanted());
  return done;
}

}  // namespace

void add_next(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("next", "What to look at next: the unseen features by what they can tell per minute");
  auto options = std::make_shared<Options>();
  verb->add_option("FILE", options->file, "the inspection so far (XML; - for standard input)")->required();
  verb->add_option("--for", options->aim, "what it should settle: the build, the verdicts or both; without it both")->check(CLI::IsMember({"build", "verdicts", "both"}));
  verb->add_option("--minutes", options->minutes, "plan a walk-round that fits into this time")->check(CLI::Range(0.1, 10000.0));
  verb->add_option("--most", options->most, "how many to list where --minutes is not given; without it 8")->check(CLI::Range(1, 1000));
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks next --minutes 20 sample-vehicles/carrier-seen-from-the-road.xml\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
