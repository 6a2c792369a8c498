#include <iostream>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "report/answers/explain_report.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

using Options = PackExplainArguments;

/// The index of an id among labels; prints the nearest and returns nothing when there is none.
template <class Items>
std::optional<std::size_t> find(const Items& items, const std::string& id, const std::string& kind, const std::string& family) {
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].id == id) return i;
    ids.push_back(items[i].id);
  }
  tell("pack '", family, "' has no ", kind, " '", id, "'; ", did_you_mean(id, ids, "see exworks pack show " + family));
  return std::nullopt;
}

}  // namespace

int run(const PackExplainArguments& options) {
  const Rules rules = rules_folders(options.rules);
  const Tables tables = tables_of(load_pack(pack_or_folder(options.family, rules), rules));
  AskedVehicles asked;
  if (options.year > 0) asked.year = options.year;
  const auto feature = find(tables.features, options.feature, "feature", tables.family);
  if (!feature) return bad_usage;
  if (!options.market.empty() && !(asked.market = find(tables.axes.markets, options.market, "market", tables.family))) return bad_usage;
  if (!options.variant.empty() && !(asked.variant = find(tables.axes.variants, options.variant, "variant", tables.family))) return bad_usage;
  const FeatureExplained explained = explain_feature(tables, FeatureIndex{*feature}, asked);
  if (options.json) print_json(json_explained(tables, explained));
  else std::cout << text_explained(tables, explained, colour_wanted());
  return explained.vehicles > 0 ? done : answer_is_no;
}

}  // namespace exworks::cli
