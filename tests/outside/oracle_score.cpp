#include "oracle.hpp"

/// Originality: the share of the weight looked at that is as built, with its exact distribution.
namespace exworks::test::oracle {

namespace {

/// [weight as built]: its probability. One look more: its weight counts where it is as built.
Reals one_more(const Reals& weights, Real as_built, Real later, std::size_t weight) {
  Reals out(weights.size() + weight, 0);
  for (std::size_t w = 0; w < weights.size(); ++w) {
    out[w + weight] += weights[w] * as_built;
    out[w] += weights[w] * later;
  }
  return out;
}

/// Of one unit, joint with its looks. `weight`: [look of the unit]
Reals weights_as_built(const States& states, const std::vector<std::size_t>& weight) {
  Reals out;
  for (const auto& [way, splits] : states) {
    Reals own{way.p};
    for (std::size_t i = 0; i < splits.size(); ++i) own = one_more(own, splits[i].type, splits[i].later, weight[i]);
    out.resize(own.size(), 0);
    for (std::size_t w = 0; w < own.size(); ++w) out[w] += own[w];
  }
  return out;
}

Reals added(const Reals& a, const Reals& b) {
  Reals out(a.size() + b.size() - 1, 0);
  for (std::size_t x = 0; x < a.size(); ++x) {
    for (std::size_t y = 0; y < b.size(); ++y) out[x + y] += a[x] * b[y];
  }
  return out;
}

}  // namespace

std::map<Real, Real> Model::score(const Answer& answer) const {
  std::vector<std::size_t> weight;
  for (std::size_t i = 0; i < looks_.size(); ++i)
    weight.push_back(answer.looks[i].p_silent <= 0.5L ? static_cast<std::size_t>(features()[looks_[i].feature].weight) : 0);
  Reals all{0};
  each_life([&](const Life& life, const std::vector<const States*>& states) {
    Reals weights{life.p / answer.evidence};
    for (std::size_t u = 0; u < units_.size(); ++u) {
      std::vector<std::size_t> of_unit;
      for (const std::size_t look : units_[u].looks) of_unit.push_back(weight[look]);
      weights = added(weights, weights_as_built(*states[u], of_unit));
    }
    all.resize(weights.size(), 0);
    for (std::size_t w = 0; w < weights.size(); ++w) all[w] += weights[w];
  });
  std::map<Real, Real> out;
  for (std::size_t w = 0; w < all.size() && all.size() > 1; ++w)
    out[static_cast<Real>(w) / static_cast<Real>(all.size() - 1)] = all[w];
  return out;
}

}  // namespace exworks::test::oracle
