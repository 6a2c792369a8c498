#include "oracle_hand.hpp"

/// Conversions (section 8), by hand.
using namespace exworks::test::oracle;

namespace {

/// One build; three features of two named values that left the works with value 0 and are never changed by themselves. The first
/// two make an assembly that is replaced on one in five, always from an outside donor that nobody named: `other` .6, named .2
/// each.
SmallPack plain_vehicle() {
  SmallPack pack = hand_pack(1);
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  pack.rates.unnamed_outside = 1;
  pack.assemblies = {{0.2, {}}};
  for (std::size_t f = 0; f < 3; ++f) {
    Feature& feature = add_plain(pack, 2);
    if (f < 2) feature.assembly = 0;
    feature.altered = 0;
    feature.facts = {of_variant(pack, 0, 0)};
  }
  return pack;
}

Real p(const SmallPack& pack, const std::vector<Look>& looks) {
  return Model(pack, {{}, looks}).answer().evidence;
}

}  // namespace

TEST_CASE("Oracle: one sign of a conversion raises the other", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  pack.conversions = {{{}, {}, 0.1, {{0, 1, 0.9}, {2, 1, 0.8}}}};
  // The lone feature shows value 1 only by the conversion: .1 x .8.
  const Answer sign = Model(pack, {{}, {saw(2, 1)}}).answer();
  CHECK(static_cast<double>(sign.evidence) == by_hand(0.08L));
  CHECK(static_cast<double>(sign.conversion[0]) == by_hand(1));
  CHECK(static_cast<double>(sign.looks[0].explanations.at({Reason::Kind::conversion, 0})) == by_hand(1));
  // Then the other is 1, too: .9, or the assembly from outside had it: .1 x .2 x .2.
  CHECK(static_cast<double>(p(pack, {saw(2, 1), saw(0, 1)}) / sign.evidence) == by_hand(0.904L));
  // Neither shows it: had all the same .1 x (.1 x .8 + .1 x .2 x .2) x .2, or not had .9 x (.8 + .2 x .2).
  const Answer none = Model(pack, {{}, {saw(0, 0), saw(2, 0)}}).answer();
  const Real had = 0.1L * 0.084L * 0.2L, not_had = 0.9L * 0.84L;
  CHECK(static_cast<double>(none.evidence) == by_hand(had + not_had));
  CHECK(static_cast<double>(none.conversion[0]) == by_hand(had / (had + not_had)));
  // Untouched: not replaced and not set.
  CHECK(static_cast<double>(none.looks[0].p_untouched) == by_hand((0.1L * 0.08L * 0.2L + 0.9L * 0.8L) / (had + not_had)));
  CHECK(static_cast<double>(none.looks[0].p_type) == by_hand(1));
}

TEST_CASE("Oracle: a conversion sets parts of whatever assembly is there", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  pack.conversions = {{{}, {}, 0.1, {{0, 1, 0.9}}}};
  // `other` in the second feature: the assembly was replaced. The first is then 1 by the conversion, or .2 as it came.
  const Real replaced = 0.2L * 0.6L;
  CHECK(static_cast<double>(p(pack, {saw(1, 2)})) == by_hand(replaced));
  const Answer both = Model(pack, {{}, {saw(1, 2), saw(0, 1)}}).answer();
  const Real by_conversion = 0.1L * 0.9L, as_it_came = (0.1L * 0.1L + 0.9L) * 0.2L;
  CHECK(static_cast<double>(both.evidence) == by_hand(replaced * (by_conversion + as_it_came)));
  using Kind = Reason::Kind;
  const LookAnswer& look = both.looks[1];
  CHECK(static_cast<double>(look.explanations.at({Kind::conversion, 0})) ==
        by_hand(by_conversion / (by_conversion + as_it_came)));
  CHECK(static_cast<double>(look.explanations.at({Kind::unnamed_donor, 0})) ==
        by_hand(as_it_came / (by_conversion + as_it_came)));
  // What it doesn't set has one explanation.
  CHECK(static_cast<double>(both.looks[0].explanations.at({Kind::unnamed_donor, 0})) == by_hand(1));
}

TEST_CASE("Oracle: of two conversions that set one feature the later in the pack lies on top", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  pack.conversions = {{{}, {}, 0.1, {{2, 1, 0.9}}}, {{}, {}, 0.2, {{2, 2, 0.5}, {0, 1, 0.9}}}};
  // Both had: 1 with .5 x .9, 2 with .5, 0 with .05. The first alone: 1 with .9. The second alone: 2 with .5, 0 with .5.
  const Real both = 0.02L, first = 0.08L, second = 0.18L, neither = 0.72L;
  CHECK(static_cast<double>(p(pack, {saw(2, 1)})) == by_hand(both * 0.45L + first * 0.9L));
  CHECK(static_cast<double>(p(pack, {saw(2, 2)})) == by_hand((both + second) * 0.5L));
  CHECK(static_cast<double>(p(pack, {saw(2, 0)})) == by_hand(both * 0.05L + first * 0.1L + second * 0.5L + neither));
  const Answer answer = Model(pack, {{}, {saw(2, 1)}}).answer();
  const Real all = both * 0.45L + first * 0.9L;
  CHECK(static_cast<double>(answer.conversion[0]) == by_hand(1));
  CHECK(static_cast<double>(answer.conversion[1]) == by_hand(both * 0.45L / all));
  CHECK(static_cast<double>(answer.looks[0].explanations.at({Reason::Kind::conversion, 0})) == by_hand(1));
  // Where both set the same value the last that did is the explanation.
  pack.conversions[1].sets[0].value = 1;
  const Answer same = Model(pack, {{}, {saw(2, 1)}}).answer();
  const Real top = (both + second) * 0.5L, below = both * 0.45L + first * 0.9L;
  CHECK(static_cast<double>(same.looks[0].explanations.at({Reason::Kind::conversion, 1})) == by_hand(top / (top + below)));
  CHECK(static_cast<double>(same.looks[0].explanations.at({Reason::Kind::conversion, 0})) == by_hand(below / (top + below)));
}

TEST_CASE("Oracle: a conversion is had as far as it was possible, in its scope, and by the level", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  pack.conversions = {{{}, Window{100, 108}, 0.2, {{2, 1, 1}}}};
  // Month 104 is the fifth of nine: half of .2.
  Visit visit{104, {saw(2, 1)}};
  CHECK(static_cast<double>(Model(pack, visit).answer().evidence) == by_hand(0.1L));
  // By level 1/28, 1/10, 1/4, 1/2 of the odds (see oracle_levels_test.cpp).
  pack.rates.level_shares = {0.42, 0.42, 0.12, 0.04};
  CHECK(static_cast<double>(Model(pack, visit).answer().evidence) == by_hand(0.107L));
  // Two builds, of which it is for the second: whatever shows it is that one.
  SmallPack two = plain_vehicle();
  add_variant(two, 0, 0, 1);
  two.features[2].facts = {{0}};
  two.conversions = {{of_variant(two, 1, 0).scope, {}, 0.1, {{2, 1, 0.9}}}};
  check_row(Model(two, {{}, {saw(2, 1)}}).answer().build, {0, 1});
  check_row(Model(two, {{}, {saw(2, 0)}}).answer().build, {1 / 1.91L, 0.91L / 1.91L});
}

TEST_CASE("Oracle: a conversion whose features were not looked at keeps its odds", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  pack.conversions = {{{}, {}, 0.1, {{2, 1, 0.9}}}};
  const Answer answer = Model(pack, {{}, {saw(0, 0)}}).answer();
  CHECK(static_cast<double>(answer.evidence) == by_hand(0.84L));  // .8 + .2 x .2
  CHECK(static_cast<double>(answer.conversion[0]) == by_hand(0.1L));
}

TEST_CASE("Oracle: a type may come back by a conversion", "[outside][oracle][by-hand]") {
  SmallPack pack = plain_vehicle();
  // Half of the vehicles had value 1 when new; the conversion sets it. Of what it set half is of the type as built.
  Fact half{1};
  half.share = 0.5;
  pack.features[2].facts[0].share = 0.5;
  pack.features[2].facts.push_back(half);
  pack.conversions = {{{}, {}, 0.1, {{2, 1, 0.9}}}};
  const Answer answer = Model(pack, {{}, {saw(2, 1)}}).answer();
  const Real set = 0.09L, left = 0.91L * 0.5L;
  CHECK(static_cast<double>(answer.looks[0].p_type) == by_hand((set * 0.5L + left) / (set + left)));
  CHECK(static_cast<double>(answer.looks[0].p_untouched) == by_hand(left / (set + left)));
}
