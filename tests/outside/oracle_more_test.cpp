#include <cmath>

#include "oracle_hand.hpp"

/// Leave-out, look-ahead, fit and score, by hand.
using namespace exworks::test::oracle;

namespace {

/// Two builds, as many of each, told apart by features of two values: value 0 on the first, 1 on the second. Nothing is ever
/// replaced.
SmallPack two_builds(std::size_t features, double altered) {
  SmallPack pack = hand_pack(2);
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  pack.rates.known = 1;
  for (std::size_t f = 0; f < features; ++f) {
    Feature& feature = add_plain(pack, 2);
    feature.altered = altered;
    feature.facts = {of_variant(pack, 0, 0), of_variant(pack, 1, 1)};
    feature.changes = {{1, of_variant(pack, 0, 0).scope, {}, 1},
                       {0, of_variant(pack, 1, 1).scope, {}, 1}};  // always to the other value
  }
  return pack;
}

/// Of an event of probability p, in bits.
Real entropy(Real p) {
  return -p * std::log2(p) - (1 - p) * std::log2(1 - p);
}

}  // namespace

TEST_CASE("Oracle: what would stand without a look", "[outside][oracle][by-hand]") {
  // Looks 0, 0, 1; one in ten is changed. First build .9 .9 .1, second .1 .1 .9: 9 : 1.
  const Model model(two_builds(3, 0.1), {{}, {saw(0, 0), saw(1, 0), saw(2, 1)}});
  const auto rest = leave_each_out(model);
  REQUIRE(rest.size() == 3);
  check_row(rest[0].variants, {0.5L, 0.5L});             // .9 x .1 each
  check_row(rest[2].variants, {81.0L / 82, 1.0L / 82});  // .81 : .01
  // What is of the type as built: on the first build the first two looks, on the second the third. Left out it keeps its figure.
  check_row(rest[0].type, {0.9L, 0.5L, 0.5L});
  check_row(rest[0].later, {0.1L, 0.5L, 0.5L});
  check_row(rest[2].type, {81.0L / 82, 81.0L / 82, 0.1L});
  check_row(rest[2].later, {1.0L / 82, 1.0L / 82, 0.9L});
}

TEST_CASE("Oracle: what a look can be expected to tell", "[outside][oracle][by-hand]") {
  // One look, 0: 9 : 1. A second feature, not seen: it will be 0 with .9 x .9 + .1 x .1 = .82.
  const Model model(two_builds(2, 0.1), {{}, {saw(0, 0)}});
  const auto all = look_ahead(model, {0});
  REQUIRE(all.size() == 1);
  const MoreToSee& second = all[0];
  CHECK(second.feature == 1);
  CHECK(static_cast<double>(second.applies) == by_hand(1));
  check_row(second.noted, {0.82L, 0.18L, 0});
  // I(build; note) = H(note) - H(note | build) = H(.18) - H(.1).
  CHECK(static_cast<double>(second.build_bits) == by_hand(entropy(0.18L) - entropy(0.1L)));
  // Its own type: as built with .9, whatever the build; noted 0 it is as built on the first alone, .81 of .82; noted 1 on the
  // second, .09 of .18.
  const Real own = entropy(0.1L) - 0.82L * entropy(0.81L / 0.82L) - 0.18L * entropy(0.5L);
  // The first look's type: as built on the first build alone, so the note tells of it what it tells of the build.
  CHECK(static_cast<double>(second.verdict_bits) == by_hand(own + entropy(0.18L) - entropy(0.1L)));
  CHECK(static_cast<double>(look_ahead(model, {})[0].verdict_bits) == by_hand(own));
}

TEST_CASE("Oracle: a feature that few vehicles have applies as far", "[outside][oracle][by-hand]") {
  SmallPack pack = two_builds(2, 0.1);
  pack.features[1].applies.variants = just(2, 1);
  pack.features[1].changes.clear();
  pack.features[1].altered = 0;
  const auto all = look_ahead(Model(pack, {{}, {saw(0, 0)}}), {});
  REQUIRE(all.size() == 1);
  CHECK(static_cast<double>(all[0].applies) == by_hand(0.1L));
  check_row(all[0].noted, {0, 0.1L, 0.9L});
  CHECK(static_cast<double>(all[0].build_bits) == by_hand(entropy(0.1L)));  // it tells all
  CHECK(static_cast<double>(all[0].verdict_bits) == by_hand(0));
  pack.features[1].applies.variants = {false, true};
  Visit given;
  given.given.scope.variants = just(2, 0);
  given.looks = {saw(0, 0)};
  CHECK(look_ahead(Model(pack, given), {}).empty());
}

TEST_CASE("Oracle: how often a vehicle looks at least as unlikely", "[outside][oracle][by-hand]") {
  // One build whose works fitted .7, .2 and .1 of `other`.
  SmallPack pack = hand_pack(1);
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  Feature& feature = add_plain(pack, 2);
  feature.altered = 0;
  feature.facts = {{0}, {1}, {2}};
  feature.facts[0].share = 0.7, feature.facts[1].share = 0.2, feature.facts[2].share = 0.1;
  const auto fits = [&](std::size_t value) { return static_cast<double>(fit(Model(pack, {{}, {saw(0, value)}}))); };
  CHECK(fits(0) == by_hand(1));
  CHECK(fits(1) == by_hand(0.3L));
  CHECK(fits(2) == by_hand(0.1L));
}

TEST_CASE("Oracle: fit is judged among vehicles of the builds and levels that remain", "[outside][oracle][by-hand]") {
  // Noted 0 and 1: on either build one is changed, .09, and .5 : .5 remain. Of a vehicle of either build the two notes that have
  // one change and the one that has two (.01) are at least as unlikely: 1 - .81.
  CHECK(static_cast<double>(fit(Model(two_builds(2, 0.1), {{}, {saw(0, 0), saw(1, 1)}}))) == by_hand(0.19L));
  // One build, one feature, changed at level k with q = 1/28, .1, .25, .5 (oracle_levels_test.cpp). Noted: the change. As
  // unlikely as that: itself, and at the last level both.
  SmallPack pack = two_builds(1, 0.1);
  pack.variants.pop_back();
  pack.features[0].facts = {{0}};
  pack.features[0].changes = {{1, {}, {}, 1}};
  pack.rates.level_shares = {0.42, 0.42, 0.12, 0.04};
  const Real due = (0.015L / 28 + 0.042L * 0.1L + 0.03L * 0.25L + 0.02L) / 0.107L;
  CHECK(static_cast<double>(fit(Model(pack, {{}, {saw(0, 1)}}))) == by_hand(due));
}

TEST_CASE("Oracle: the score by weight", "[outside][oracle][by-hand]") {
  SmallPack pack = two_builds(3, 0.1);
  pack.features[0].weight = 1, pack.features[1].weight = 3, pack.features[2].weight = 2;
  // 0, 0, 1 (9 : 1): on the first build 1 + 3 of 6 are as built, on the second 2.
  const Model model(pack, {{}, {saw(0, 0), saw(1, 0), saw(2, 1)}});
  std::map<Real, Real> score = model.score(model.answer());
  CHECK(static_cast<double>(score[4.0L / 6]) == by_hand(0.9L));
  CHECK(static_cast<double>(score[2.0L / 6]) == by_hand(0.1L));
  CHECK(static_cast<double>(score[1]) == by_hand(0));
}

TEST_CASE("Oracle: parts that came together count together in the score", "[outside][oracle][by-hand]") {
  SmallPack pack = two_builds(2, 0);
  pack.rates.unnamed_outside = 0;
  pack.assemblies = {{0.2, {}}};
  pack.features[0].assembly = pack.features[1].assembly = 0;
  // 1, 1. Of the first .2 x 3/4 = .15, both later; of the second .8 + .2 x 1/2 = .9, both as built.
  const Model model(pack, {{}, {saw(0, 1), saw(1, 1)}});
  std::map<Real, Real> score = model.score(model.answer());
  CHECK(static_cast<double>(score[0]) == by_hand(0.15L / 1.05L));
  CHECK(static_cast<double>(score[0.5L]) == by_hand(0));
  CHECK(static_cast<double>(score[1]) == by_hand(0.9L / 1.05L));
}

TEST_CASE("Oracle: nothing is scored on which the pack is silent", "[outside][oracle][by-hand]") {
  SmallPack pack = two_builds(1, 0.1);
  pack.features[0].facts.clear();
  const Model model(pack, {{}, {saw(0, 0)}});
  CHECK(model.score(model.answer()).empty());
}
