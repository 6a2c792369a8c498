#include <iostream>

#include "base/file.hpp"
#include "command.hpp"
#include "engine/evidence/evidence.hpp"
#include "study/rates_file.hpp"
#include "verbs/verbs.hpp"

namespace exworks::cli {

int run(const LearnArguments& options) {
  refuse_existing(options.out, options.overwrite);
  const Tables tables = load_tables(options.family, rules_folders(options.rules));
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
    tell("nothing to learn: no observation has confirmed=\"as-built\" or \"changed\"; write what the expert found into the inspections");
    return bad_input;
  }
  if (options.out.empty()) std::cout << write_rates(rates);
  else write_file(options.out, write_rates(rates));
  return done;
}

}  // namespace exworks::cli
