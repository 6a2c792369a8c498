#include <iostream>

#include "base/text.hpp"
#include "engine/compile/compiler.hpp"
#include "verbs/pack/common.hpp"
#include "report/kinds/explain_report.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string feature, family, rules, market, variant;
  int year = 0;
  bool json = false;
};

/// The index of an id among labels; prints the nearest and returns nothing when there is none.
template <class Items>
std::optional<std::size_t> find(const Items& items, const std::string& id, const std::string& kind, const std::string& family) {
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].id == id) return i;
    ids.push_back(items[i].id);
  }
  std::cerr << "pack '" << family << "' has no " << kind << " '" << id << "'; " << did_you_mean(id, ids, "see exworks pack show " + family) << '\n';
  return std::nullopt;
}

int run(const Options& options) {
  const Tables tables = compile(read_named_pack(options.family, options.rules));
  AskedVehicles asked;
  if (options.year > 0) asked.year = options.year;
  const auto feature = find(tables.features, options.feature, "feature", tables.family);
  if (!feature) return bad_usage;
  if (!options.market.empty() && !(asked.market = find(tables.axes.markets, options.market, "market", tables.family))) return bad_usage;
  if (!options.variant.empty() && !(asked.variant = find(tables.axes.variants, options.variant, "variant", tables.family))) return bad_usage;
  const FeatureExplained explained = explain_feature(tables, *feature, asked);
  if (options.json) std::cout << json_explained(tables, explained).dump(2) << '\n';
  else std::cout << text_explained(tables, explained, colour_wanted());
  return explained.vehicles > 0 ? done : answer_is_no;
}

}  // namespace

void add_pack_explain(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("explain", "What was right for one feature, when, on which vehicles and by which source");
  auto options = std::make_shared<Options>();
  verb->add_option("FEATURE", options->feature, "the feature's id (exworks pack show lists them)")->required();
  verb->add_option("--family", options->family, "the pack's name or folder")->required();
  verb->add_option("--year", options->year, "only vehicles built in this year")->check(CLI::Range(1, 9999));
  verb->add_option("--market", options->market, "only vehicles sold new in this market");
  verb->add_option("--variant", options->variant, "only this variant");
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks pack explain headlamp-position --family aldermoor-carrier --year 1958 --market home\nExit 1: no such vehicle was built.\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
