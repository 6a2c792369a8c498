#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "report/answers/trial_report.hpp"
#include "verbs/verbs.hpp"
#include "words/english/english.hpp"

namespace exworks::cli {

namespace {

using Options = TrialArguments;

int walk(const Tables& tables, const Options& options) {
  const Walk w = run_walk(tables, options.walk, options.seed, options.months);
  if (options.json) {
    print_json(nlohmann::ordered_json{{"family", tables.family}, {"months", options.months}, {"n", w.n}, {"seed", options.seed}, {"share_reached", w.share_reached()}, {"checks_by_next", w.by_next},
                                        {"checks_in_walk_order", w.in_walk_order}, {"checks_at_random", w.at_random}});
    return done;
  }
  if (w.n == 0) {
    std::cout << tables.family << ": of " << counted(w.simulated, "vehicle") << " none reaches a date window of " << counted(static_cast<std::size_t>(options.months), "month") << ", with everything seen; --months sets a wider one\n";
    return done;
  }
  char line[256];
  std::snprintf(line, sizeof line, "%s, %zu vehicles: checks until the date window is %d months or less\n  by next %.1f, in walk-round order %.1f, at random %.1f\n  (%.0f %% of the vehicles reach it with everything seen)\n",
                tables.family.c_str(), w.n, options.months, w.by_next, w.in_walk_order, w.at_random, 100 * w.share_reached());
  std::cout << line;
  return done;
}

}  // namespace

int run(const TrialArguments& options) {
  refuse_existing(options.svg, options.overwrite);
  const Tables tables = load_tables(options.family, rules_folders(options.rules));
  if (options.walk > 0) return walk(tables, options);
  const Trial trial = run_trial(tables, options.n, options.seed, options.coverage);
  if (!options.svg.empty()) write_file(options.svg, svg_reliability(trial));
  if (options.json) print_json(json_trial(trial));
  else std::cout << text_trial(trial, colour_wanted());
  return done;
}

}  // namespace exworks::cli
