#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "report/answers/next_report.hpp"
#include "verbs/verbs.hpp"

namespace exworks::cli {

int run(const NextArguments& options) {
  const Inspection inspection = load_inspection(options.file);
  const std::string family = options.family.empty() ? inspection.family : options.family;
  if (family.empty()) {
    tell(options.file, ": the inspection names no family; add family=\"...\" to it, or give --family");
    return bad_usage;
  }
  const Tables tables = load_tables(family, rules_folders(options.rules));
  Diagnostics diagnostics;
  const Aim aim = options.aim == "build" ? Aim::build : options.aim == "verdicts" ? Aim::verdicts : Aim::both;
  const std::optional<double> budget = options.minutes > 0 ? std::optional(options.minutes) : std::nullopt;
  const NextChecks next = next_checks(tables, inspection, aim, budget, options.most, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) return bad_input;
  if (options.json) print_json(json_next(tables, next));
  else std::cout << text_next(tables, next, colour_wanted());
  return done;
}

}  // namespace exworks::cli
