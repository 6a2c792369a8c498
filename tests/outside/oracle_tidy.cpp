#include <algorithm>

#include "oracle_generate.hpp"

/// What chance writes is not always a pack that its reader takes.
namespace exworks::test::oracle {

namespace {

bool has(const std::vector<bool>& members, std::size_t i) {
  return members.empty() || members[i];
}

bool in_scope(const SmallPack& pack, const Scope& scope, std::size_t variant, std::size_t market, std::size_t plant) {
  return has(scope.variants, variant) && has(scope.generations, pack.variants[variant].generation) &&
         has(scope.bodies, pack.variants[variant].body) && has(scope.markets, market) && has(scope.plants, plant);
}

}  // namespace

/// The pack's reader takes the opposite for a slip of the pen.
bool any_built(const SmallPack& pack, const Scope& scope, const Scope& also, const Window& period) {
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    const Variant& variant = pack.variants[v];
    for (std::size_t m = 0; m < pack.markets.size(); ++m) {
      for (std::size_t p = 0; p < pack.plants.size(); ++p) {
        const Plant& plant = pack.plants[p];
        const Window work = plant.at_work.value_or(always);
        const Window months{std::max({work.first, variant.built.first, period.first}),
                            std::min({work.last, variant.built.last, period.last})};
        const bool built = months.first <= months.last && variant.markets[m] && variant.plants[p] && plant.markets[m];
        if (built && in_scope(pack, scope, v, m, p) && in_scope(pack, also, v, m, p)) return true;
      }
    }
  }
  return false;
}

void tidy(SmallPack& pack) {
  for (Feature& feature : pack.features) {
    if (!any_built(pack, feature.applies)) feature.applies = {}, feature.elsewhere = {};
    std::erase_if(feature.facts, [&](const Fact& fact) {
      return !any_built(pack, fact.scope, feature.applies,
                        {fact.from ? fact.from->first : always.first, fact.to ? fact.to->last : always.last});
    });
    std::erase_if(feature.changes, [&](const Change& change) { return !any_built(pack, change.scope, feature.applies); });
    for (std::size_t v = 0; v < feature.values; ++v) {
      const auto leads = [&](const auto& x) { return x.value == v; };
      if (std::none_of(feature.facts.begin(), feature.facts.end(), leads) &&
          std::none_of(feature.changes.begin(), feature.changes.end(), leads)) {
        feature.changes.push_back({v, {}, {}, 1});
      }
    }
  }
  std::erase_if(pack.outsides, [&](const Outside& outside) { return !any_built(pack, outside.scope); });
  for (Conversion& conversion : pack.conversions)
    std::erase_if(conversion.sets,
                  [&](const Sets& sets) { return !any_built(pack, conversion.scope, pack.features[sets.feature].applies); });
  std::erase_if(pack.conversions, [](const Conversion& conversion) { return conversion.sets.empty(); });
}

}  // namespace exworks::test::oracle
