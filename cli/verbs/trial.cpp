#include <iostream>

#include "base/file.hpp"
#include "command.hpp"
#include "report/kinds/trial_report.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string family, rules, svg;
  std::size_t n = 1000, walk = 0;
  int months = 12;
  std::uint64_t seed = 1;
  double coverage = -1;
  bool json = false, overwrite = false;
};

int walk(const Tables& tables, const Options& options) {
  const Walk w = run_walk(tables, options.walk, options.seed, options.months);
  if (options.json) {
    std::cout << nlohmann::ordered_json{{"family", tables.family}, {"months", options.months}, {"n", w.n}, {"seed", options.seed}, {"share_reached", w.share_reached()}, {"checks_by_next", w.by_next},
                                        {"checks_in_walk_order", w.in_walk_order}, {"checks_at_random", w.at_random}}.dump(2) << '\n';
    return done;
  }
  if (w.n == 0) {
    std::cout << tables.family << ": of " << w.simulated << " vehicles none reaches a date window of " << options.months << " months, with everything seen; --months sets a wider one\n";
    return done;
  }
  char line[256];
  std::snprintf(line, sizeof line, "%s, %zu vehicles: checks until the date window is %d months or less\n  by next %.1f, in walk-round order %.1f, at random %.1f\n  (%.0f %% of the vehicles reach it with everything seen)\n",
                tables.family.c_str(), w.n, options.months, w.by_next, w.in_walk_order, w.at_random, 100 * w.share_reached());
  std::cout << line;
  return done;
}

int run(const Options& options) {
  refuse_existing(options.svg, options.overwrite);
  const Tables tables = load_pack(rules_folders(options.rules), options.family);
  if (options.walk > 0) return walk(tables, options);
  const Trial trial = run_trial(tables, options.n, options.seed, options.coverage, 2);
  if (!options.svg.empty()) write_file(options.svg, svg_reliability(trial));
  if (options.json) std::cout << json_trial(trial).dump(2) << '\n';
  else std::cout << text_trial(trial, colour_wanted());
  return done;
}

}  // namespace

void add_trial(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("trial", "Do the stated odds come true? Simulate vehicles from a pack, and from a world that it has wrong");
  auto options = std::make_shared<Options>();
  verb->add_option("--family", options->family, "the pack, such as aldermoor-carrier")->required();
  verb->add_option("-n", options->n, "vehicles to simulate in each of the two worlds; without it 1000")->check(CLI::Range(1, 10'000'000));
  verb->add_option("--seed", options->seed, "where the chance begins; same seed, same figures; without it 1");
  verb->add_option("--coverage", options->coverage, "share of features seen; without it drawn for each vehicle from 0.3 to 1")->check(CLI::Range(0.0, 1.0));
  verb->add_option("--walk", options->walk, "instead: over this many vehicles, how many checks a narrow date window takes by next, by walk-round and at random")->check(CLI::Range(1, 100'000));
  verb->add_option("--months", options->months, "the window of --walk, in months; without it 12")->check(CLI::Range(1, 1200));
  verb->add_option("--svg", options->svg, "write the reliability plot to this file");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks trial --family aldermoor-carrier -n 1000 --seed 1\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
