#include <algorithm>

#include "oracle_generate.hpp"

/// What the works fitted, by chance.
namespace exworks::test::oracle {

namespace {

Fact standard(std::size_t value, const Scope& scope, std::optional<Window> from, std::optional<Window> to) {
  return {value, scope, from, to};
}

/// Side by side, with shares; perhaps one before or beside those.
void add_shared(Feature& feature, const Scope& scope, Dice& dice, bool one_as_well) {
  std::optional<Window> begin;
  if (one_as_well) {
    if (dice.chance(0.7)) begin = random_edge(dice, year_1952 + dice.between(2, 9));
    feature.facts.push_back(standard(dice.below(feature.values), scope, {}, begin));
  }
  for (const std::size_t v : dice.some(feature.values, 2 + dice.below(feature.values - 1))) {
    Fact fact = standard(v, scope, begin, {});
    fact.share = dice.share(0.1, one_as_well ? 0.22 : 0.9);
    if (!begin && dice.chance(0.3)) fact.from = random_edge(dice, year_1952 + dice.between(0, 10));
    if (!begin && dice.chance(0.3))
      fact.to = random_edge(dice, (fact.from ? fact.from->last + 1 : year_1952) + dice.between(0, 10));
    feature.facts.push_back(fact);
  }
}

/// One after the other; perhaps with a stretch that no source speaks of.
void add_in_turn(Feature& feature, const Scope& scope, Dice& dice) {
  const std::vector<std::size_t> values = dice.some(feature.values, std::min<std::size_t>(feature.values, 2 + dice.below(2)));
  std::optional<Window> edge;
  const std::size_t gap = dice.chance(0.25) ? dice.below(values.size()) : values.size();
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::optional<Window> from = edge;
    edge.reset();
    if (i + 1 < values.size())
      edge = random_edge(dice, (from ? (dice.chance(0.3) ? from->first : from->last) : year_1952) + dice.between(1, 7));
    if (from && edge && (edge->first <= from->first || edge->last <= from->last)) edge = Window{from->last + 1, from->last + 3};
    if (i != gap) feature.facts.push_back(standard(values[i], scope, from, edge));
  }
}

/// What the works fitted standard within one scope: nothing known, one value, values in turn, or side by side.
void add_standard(Feature& feature, const Scope& scope, Dice& dice) {
  const std::size_t kind = dice.below(10);
  if (kind == 0) return;
  if (kind <= 3) {
    const bool dots = dice.chance(0.2);
    feature.facts.push_back(standard(dice.chance(0.1) ? feature.values : dice.below(feature.values), scope, {}, {}));
    feature.facts.back().dots = dots;
  } else if (kind <= 6) {
    add_shared(feature, scope, dice, kind == 4);
  } else {
    add_in_turn(feature, scope, dice);
  }
}

void add_option(Feature& feature, Dice& dice) {
  Fact fact = standard(dice.below(feature.values), feature.facts[dice.below(feature.facts.size())].scope, {}, {});
  fact.fitted = dice.chance(0.3) ? "dealer" : "option";
  fact.share = dice.share(0.05, 0.45);
  if (dice.chance(0.4)) fact.from = random_edge(dice, year_1952 + dice.between(0, 8));
  if (dice.chance(0.4)) fact.to = random_edge(dice, (fact.from ? fact.from->last + 1 : year_1952) + dice.between(2, 10));
  feature.facts.push_back(fact);
}

}  // namespace

void add_facts(const SmallPack& pack, Feature& feature, Dice& dice) {
  const std::size_t a = dice.below(6);
  if (a == 5) {
    add_standard(feature, {}, dice);
  } else {
    for (std::size_t i = 0; i < size_of_axis(pack, a); ++i) {
      Scope scope;
      axis(scope, a) = only(size_of_axis(pack, a), i);
      const std::size_t b = (a + 1 + dice.below(4)) % 5;
      if (!dice.chance(0.25)) {
        add_standard(feature, scope, dice);
        continue;
      }
      for (std::size_t j = 0; j < size_of_axis(pack, b); ++j) {
        axis(scope, b) = only(size_of_axis(pack, b), j);
        add_standard(feature, scope, dice);
      }
    }
  }
  for (std::size_t i = dice.below(3); i > 0 && !feature.facts.empty(); --i) add_option(feature, dice);
  for (Fact& fact : feature.facts) fact.backing = dice.below(4);
}

void fall_silent(const SmallPack& pack, Feature& feature, Dice& dice) {
  const std::size_t a = dice.below(4), n = size_of_axis(pack, a), member = dice.below(n);
  if (n < 2) return;
  for (Fact& fact : feature.facts) {
    std::vector<bool>& members = axis(fact.scope, a);
    if (members.empty()) members.assign(n, true);
    members[member] = false;
  }
  std::erase_if(feature.facts, [&](Fact& fact) {
    const std::vector<bool>& members = axis(fact.scope, a);
    return std::find(members.begin(), members.end(), true) == members.end();
  });
}

}  // namespace exworks::test::oracle
