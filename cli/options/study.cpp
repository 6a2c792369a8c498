#include "options/options.hpp"
#include "verbs/verbs.hpp"

namespace exworks::cli {

void add_learn(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("learn", "Update the rates of change from vehicles that an expert has confirmed; writes JSON, never touches the pack");
  auto options = std::make_shared<LearnArguments>();
  verb->add_option("FILES", options->files, "inspections with confirmed=\"as-built\" or \"changed\" on their observations")->required();
  verb->add_option("--family", options->family, "the pack, such as aldermoor-carrier")->required();
  verb->add_option("--prior", options->prior, "how many vehicles the pack's own rates count as, beside yours; without it 20")->check(within(0.5, 100000.0));
  verb->add_option("-o", options->out, "write the rates to this file; without it to standard output");
  add_overwrite_option(*verb, options->overwrite);
  add_rules_option(*verb, options->rules);
  add_footer(*verb, "Example: exworks learn --family aldermoor-carrier -o rates.json confirmed-*.xml\nThen: exworks assess --rates rates.json FILE\n");
  calls(*verb, options, action);
}

void add_trial(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("trial", "Do the stated odds come true? Simulate vehicles as the pack believes, and in worlds that it has wrong");
  auto options = std::make_shared<TrialArguments>();
  verb->add_option("--family", options->family, "the pack, such as aldermoor-carrier")->required();
  verb->add_option("-n", options->n, "vehicles to simulate in each of the eight worlds; without it 1000")->check(CLI::Range(1, 10'000'000));
  verb->add_option("--seed", options->seed, "where the chance begins; same seed, same figures; without it 1");
  verb->add_option("--coverage", options->coverage, "share of features seen; without it drawn for each vehicle from 0.3 to 1")->check(within(0.0, 1.0));
  verb->add_option("--walk", options->walk, "instead: over this many vehicles, how many checks a narrow date window takes by next, by walk-round and at random")->check(CLI::Range(1, 100'000));
  verb->add_option("--months", options->months, "the window of --walk, in months; without it 12")->check(CLI::Range(1, 1200));
  verb->add_option("--svg", options->svg, "write the reliability plot to this file");
  add_overwrite_option(*verb, options->overwrite);
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks trial --family aldermoor-carrier -n 1000 --seed 1\n");
  calls(*verb, options, action);
}

}  // namespace exworks::cli
