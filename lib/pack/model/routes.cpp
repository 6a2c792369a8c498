#include <algorithm>

#include "pack/model/limits.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

double Market::share_in(Month month) const {
  for (const Period& p : periods) {
    if (month >= p.first && month <= p.last) return p.share;
  }
  return share;
}

namespace {

template <class Take>
void for_each_route(const Pack& pack, Take take) {
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    const Variant& variant = pack.variants[v];
    for (std::size_t m = 0; m < pack.markets.size(); ++m) {
      if (!variant.markets[m]) continue;
      for (std::size_t p = 0; p < pack.plants.size(); ++p) {
        const Plant& plant = pack.plants[p];
        if (!variant.plants[p] || !plant.markets[m]) continue;
        Month first = variant.from.first, last = variant.to.last;
        if (plant.from && !plant.from->open) first = std::max(first, plant.from->first);
        if (plant.to && !plant.to->open) last = std::min(last, plant.to->last);
        if (first <= last) take(Route{VariantIndex{v}, MarketIndex{m}, PlantIndex{p}, first, last});
      }
    }
  }
}

}  // namespace

std::vector<Route> routes(const Pack& pack) {
  std::vector<Route> out;
  for_each_route(pack, [&](const Route& r) { out.push_back(r); });
  return out;
}

bool within_limits(const Pack& pack, Diagnostics& diagnostics) {
  for (const std::size_t axis : {pack.variants.size(), pack.markets.size(), pack.plants.size(), pack.generations.size(), pack.bodies.size()}) {
    if (axis <= axis_limit) continue;
    diagnostics.error({pack.folder, 0, 0}, "an axis of the pack has " + std::to_string(axis) + " members", "stay below " + std::to_string(axis_limit + 1) + ": merge those that no fact tells apart");
    return false;
  }
  std::size_t builds = 0;
  for_each_route(pack, [&](const Route& r) { builds += static_cast<std::size_t>(r.last - r.first) + 1; });
  if (builds <= build_limit) return true;
  diagnostics.error({pack.folder, 0, 0}, "the pack has " + std::to_string(builds) + " builds (variant x market x plant x month)",
                    "stay below " + std::to_string(build_limit) + ": merge markets that no fact tells apart");
  return false;
}

}  // namespace exworks
