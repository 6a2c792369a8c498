#include "engine/evidence/evidence.hpp"

#include <algorithm>

#include "engine/evidence/noting.hpp"

namespace exworks {

Seen look(const Tables& tables, FeatureIndex feature, std::vector<ValueIndex> left_open, Trust trust) {
  std::sort(left_open.begin(), left_open.end());
  Seen seen;
  seen.feature = feature;
  seen.value = left_open.front();
  seen.trust = trust;
  seen.given = NoteModel(tables.features[feature], tables.rates, trust).given(left_open);
  seen.left_open = std::move(left_open);
  return seen;
}

const Seen* Evidence::find(FeatureIndex feature) const {
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
