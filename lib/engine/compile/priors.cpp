#include "engine/compile/priors.hpp"

#include <algorithm>
#include <map>

namespace exworks {

namespace {

/// Share of month `m` within a variant's window: both months named are whole, a window of several months is a ramp.
double window_share(const Variant& v, Month m) {
  const double begun = v.from.first == v.from.last ? (m >= v.from.first ? 1.0 : 0.0) : share_after(v.from, m);
  const double ended = v.to.first == v.to.last ? (m > v.to.last ? 1.0 : 0.0) : share_after(v.to, m);
  return begun * (1 - ended);
}

/// The routes of each variant, [variant].
std::vector<std::vector<std::size_t>> by_variant(const Pack& pack, const std::vector<Route>& routes) {
  std::vector<std::vector<std::size_t>> out(pack.variants.size());
  for (std::size_t r = 0; r < routes.size(); ++r) out[routes[r].variant].push_back(r);
  return out;
}

/// Vehicles a month: from the variant's units over the months in which a plant built it, else the mean of the variants that
/// have them, else 1.
std::vector<double> monthly_rates(const Pack& pack, const std::vector<Route>& routes, const std::vector<std::vector<std::size_t>>& own) {
  std::vector<double> rates(pack.variants.size(), 0);
  double known = 0, known_months = 0;
  for (std::size_t v = 0; v < rates.size(); ++v) {
    const Variant& variant = pack.variants[v];
    if (!variant.units) continue;
    double months = 0;
    for (Month m = variant.from.first; m <= variant.to.last; m = m + 1) {
      const bool at_work = std::any_of(own[v].begin(), own[v].end(), [&](std::size_t r) { return m >= routes[r].first && m <= routes[r].last; });
      if (at_work) months += window_share(variant, m);
    }
    rates[v] = *variant.units / std::max(months, 1e-9);
    known += *variant.units;
    known_months += months;
  }
  const double fallback = known_months > 0 ? known / known_months : 1.0;
  for (std::size_t v = 0; v < rates.size(); ++v) {
    if (!pack.variants[v].units) rates[v] = fallback;
  }
  return rates;
}

/// Scales the builds that each volume row speaks of; the rest keep pace with the mean of the scaled ones.
void apply_volumes(const Pack& pack, const std::vector<Route>& routes, std::vector<std::vector<double>>& weights) {
  if (pack.volumes.empty()) return;
  std::vector<std::vector<bool>> scaled(routes.size());
  for (std::size_t r = 0; r < routes.size(); ++r) scaled[r].assign(weights[r].size(), false);
  double units = 0, raw = 0;
  for (const Volume& row : pack.volumes) {
    double sum = 0;
    const auto each = [&](auto&& act) {
      for (std::size_t r = 0; r < routes.size(); ++r) {
        if (!row.scope.covers(routes[r].variant, routes[r].market, routes[r].plant)) continue;
        for (std::size_t i = 0; i < weights[r].size(); ++i) {
          const Month m = routes[r].first + static_cast<int>(i);
          if ((row.from.open || m >= row.from.first) && (row.to.open || m <= row.to.last)) act(r, i);
        }
      }
    };
    each([&](std::size_t r, std::size_t i) { sum += weights[r][i]; });
    if (sum <= 0) continue;
    units += row.units;
    raw += sum;
    each([&](std::size_t r, std::size_t i) {
      weights[r][i] *= row.units / sum;
      scaled[r][i] = true;
    });
  }
  // Where the variants have units of their own, the rest is in vehicles already.
  const bool in_vehicles = std::any_of(pack.variants.begin(), pack.variants.end(), [](const Variant& v) { return v.units.has_value(); });
  if (in_vehicles || raw <= 0) return;
  for (std::size_t r = 0; r < routes.size(); ++r) {
    for (std::size_t i = 0; i < weights[r].size(); ++i) {
      if (!scaled[r][i]) weights[r][i] *= units / raw;
    }
  }
}

}  // namespace

std::vector<std::vector<double>> build_weights(const Pack& pack, const std::vector<Route>& routes) {
  const std::vector<std::vector<std::size_t>> own = by_variant(pack, routes);
  const std::vector<double> rates = monthly_rates(pack, routes, own);
  std::vector<std::vector<double>> weights(routes.size());
  for (std::size_t r = 0; r < routes.size(); ++r) weights[r].assign(static_cast<std::size_t>(routes[r].last - routes[r].first + 1), 0);
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    for (Month m = pack.variants[v].from.first; m <= pack.variants[v].to.last; m = m + 1) {
      std::map<std::size_t, double> plants_of_market;  // sum of the shares of the plants at work
      for (std::size_t r : own[v]) {
        if (m >= routes[r].first && m <= routes[r].last) plants_of_market[routes[r].market] += pack.plants[routes[r].plant].share;
      }
      double market_sum = 0;
      for (const auto& [market, sum] : plants_of_market) market_sum += pack.markets[market].share_in(m);
      if (market_sum <= 0) continue;
      const double vehicles = rates[v] * window_share(pack.variants[v], m);
      for (std::size_t r : own[v]) {
        if (m < routes[r].first || m > routes[r].last) continue;
        const double market = pack.markets[routes[r].market].share_in(m) / market_sum;
        const double plant = pack.plants[routes[r].plant].share / plants_of_market[routes[r].market];
        weights[r][static_cast<std::size_t>(m - routes[r].first)] = vehicles * market * plant;
      }
    }
  }
  apply_volumes(pack, routes, weights);
  return weights;
}

}  // namespace exworks
