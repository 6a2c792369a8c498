#include <iostream>

#include "base/file.hpp"
#include "engine/infer/evidence.hpp"
#include "command.hpp"
#include "study/rates_file.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::vector<std::string> files;
  std::string family, rules, out;
  double prior = 20;
  bool overwrite = false;
};

int run(const Options& options) {
  refuse_existing(options.out, options.overwrite);
  const Tables tables = load_pack(rules_folders(options.rules), options.family);
  std::vector<Inspection> inspections;
  for (const std::string& file : options.files) {
    inspections.push_back(load_inspection(file));
    Diagnostics diagnostics;
    exworks::bind(tables, inspections.back(), diagnostics);
    print(diagnostics, true);
    if (diagnostics.has_errors()) return bad_input;
  }
  const LearnedRates rates = learn_rates(tables, inspections, options.prior);
  if (rates.vehicles == 0) {
    std::cerr << "nothing to learn: no observation has confirmed=\"as-built\" or \"changed\"; write what the expert found into the inspections\n";
    return bad_input;
  }
  if (options.out.empty()) std::cout << write_rates(rates);
  else write_file(options.out, write_rates(rates));
  return done;
}

}  // namespace

void add_learn(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("learn", "Update the rates of change from vehicles that an expert has confirmed; writes JSON, never touches the pack");
  auto options = std::make_shared<Options>();
  verb->add_option("FILES", options->files, "inspections with confirmed=\"as-built\" or \"changed\" on their observations")->required();
  verb->add_option("--family", options->family, "the pack, such as aldermoor-carrier")->required();
  verb->add_option("--prior", options->prior, "how many vehicles the pack's own rates count as, beside yours; without it 20")->check(CLI::Range(0.5, 100000.0));
  verb->add_option("-o", options->out, "write the rates to this file; without it to standard output");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->footer(std::string("Example: exworks learn --family aldermoor-carrier -o rates.json confirmed-*.xml\nThen: exworks assess --rates rates.json FILE\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
