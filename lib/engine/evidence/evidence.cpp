#include "engine/evidence/evidence.hpp"

#include <algorithm>

namespace exworks {

namespace {

bool look_alike(const FeatureInfo& feature, std::size_t a, std::size_t b) {
  const auto names = [&](std::size_t x, std::size_t y) {
    return x < feature.values.size() && std::find(feature.values[x].looks_like.begin(), feature.values[x].looks_like.end(), y) != feature.values[x].looks_like.end();
  };
  return names(a, b) || names(b, a);
}

}  // namespace

double slip_rate(const Tables& tables, std::size_t feature, HowSeen how, HowSure sure) {
  const Rates& rates = tables.rates;
  const bool second_hand = how == HowSeen::told || how == HowSeen::photo;
  double rate = rates.sure;
  if (sure == HowSure::guess || (sure == HowSure::probable && second_hand)) rate = rates.guess;
  else if (sure == HowSure::probable || second_hand) rate = rates.probable;
  return std::min(0.5, rate * tables.features[feature].slip);
}

std::vector<double> slip_model(const FeatureInfo& feature, std::size_t observed, double slip, double factor) {
  const std::size_t n = feature.value_count();
  std::vector<double> given(n);
  for (std::size_t there = 0; there < n; ++there) {
    double sum = 0;
    bool any_like = false;
    for (std::size_t other = 0; other < n; ++other) {
      if (other == there) continue;
      const bool like = look_alike(feature, there, other);
      any_like = any_like || like;
      sum += like ? factor : 1.0;
    }
    const double rate = any_like ? std::min(0.6, 2 * slip) : slip;
    given[there] = observed == there ? 1.0 - rate : rate * (look_alike(feature, there, observed) ? factor : 1.0) / sum;
  }
  return given;
}

const Seen* Evidence::find(std::size_t feature) const {
  for (const Seen& s : seen) {
    if (s.feature == feature) return &s;
  }
  return nullptr;
}

const NumberRead* Evidence::find_number(std::size_t number) const {
  const auto at = std::find_if(numbers.begin(), numbers.end(), [&](const NumberRead& n) { return n.number == number; });
  return at == numbers.end() ? nullptr : &*at;
}

bool Given::allows(const RouteInfo& route, Month month) const {
  return (variants.empty() || variants[route.variant]) && (markets.empty() || markets[route.market]) && (plants.empty() || plants[route.plant]) &&
         (!built || built->open || (month >= built->first && month <= built->last));
}

}  // namespace exworks
