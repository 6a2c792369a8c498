#include <algorithm>

#include "pack/model/pack.hpp"

namespace exworks {

double Market::share_in(Month month) const {
  for (const Period& p : periods) {
    if (month >= p.first && month <= p.last) return p.share;
  }
  return share;
}

std::vector<Route> routes(const Pack& pack) {
  std::vector<Route> out;
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
        if (first <= last) out.push_back({v, m, p, first, last});
      }
    }
  }
  return out;
}

}  // namespace exworks
