#include "engine/compile/edges.hpp"

#include <algorithm>

namespace exworks {

namespace {

constexpr int wrong_year_months = 12;

/// The window, `by` months wider at both ends.
Edge wider(const Edge& edge, int by) { return {edge.first - by, edge.last + by}; }

EdgeBacking backing(const Pack& pack, const Fact& fact) {
  const auto of_kind = [&](SourceKind kind) { return std::count_if(fact.sources.begin(), fact.sources.end(), [&](std::size_t s) { return pack.sources[s].kind == kind; }); };
  if (const auto published = of_kind(SourceKind::published); published > 0) return published > 1 ? EdgeBacking::two_sources : EdgeBacking::one_source;
  return of_kind(SourceKind::common_practice) > 0 ? EdgeBacking::common_practice : EdgeBacking::memory;
}

}  // namespace

int edge_months(const Pack& pack, const Fact& fact, bool tied) {
  return pack.rates.edge_months[static_cast<std::size_t>(tied ? EdgeBacking::two_sources : backing(pack, fact))];
}

double past(const Edge& edge, Month m, int within, const Rates& rates) {
  if (edge.open) return 1;
  return (1 - rates.wrong_year) * share_after(wider(edge, within), m) + rates.wrong_year * share_after(wider(edge, wrong_year_months), m);
}

int reach_of(int within, const Rates& rates) { return std::max(within, rates.wrong_year > 0 ? wrong_year_months : 0); }

}  // namespace exworks
