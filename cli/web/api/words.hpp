#pragma once
#include <nlohmann/json.hpp>

#include "web/api/context.hpp"

/// What the pages are told, as JSON (the shapes stand in api.hpp).
namespace exworks::cli::web {

Json entry_json(const Entry& entry);
/// How a job stands; null when nothing was seen. `edited`: the answers that came with this request (kind, name).
Json state_json(const State& state, const std::vector<std::pair<std::string, std::string>>& edited);
Json pack_json(const Tables& tables);
/// With `words`, a sentence for a small screen.
Json number_json(const Tables& tables, const NumberVerdict& number);
Json cautions_json(const Tables& tables, const std::vector<std::size_t>& cautions);
/// The leading variant, or what leads of another axis: {id, name, p}; null when there is none.
template <class Items>
Json lead_json(const std::vector<Odds>& odds, const Items& items) {
  if (odds.empty()) return nullptr;
  return {{"id", items[odds.front().index].id}, {"name", items[odds.front().index].name}, {"p", odds.front().p}};
}
Json odds_json(const Tables& tables, const Assessment& assessment);

/// What the latest answers changed, in sentences; the first is short.
std::vector<std::string> said(const State& state, const std::vector<std::pair<std::string, std::string>>& edited);

}  // namespace exworks::cli::web
