#include "oracle_hand.hpp"

/// Silence is not knowledge (section 3 of the arithmetic), by hand: 0.75 of the relatives, 0.25 even over the values that facts
/// name.
using namespace exworks::test::oracle;

namespace {

/// All of one month and of one market and plant: the generations and bodies of its variants, as many of each.
SmallPack one_month(const std::vector<std::pair<std::size_t, std::size_t>>& generations_and_bodies) {
  SmallPack out = hand_pack(0);
  for (const auto& [generation, body] : generations_and_bodies) add_variant(out, generation, body, 0, 100);
  return out;
}

Fact at_plant(const SmallPack& pack, std::size_t plant, std::size_t value) {
  Fact out{value};
  out.scope.plants = just(pack.plants.size(), plant);
  return out;
}

Fact in_market(const SmallPack& pack, std::size_t market, std::size_t value) {
  Fact out{value};
  out.scope.markets = just(pack.markets.size(), market);
  return out;
}

void check_build(const SmallPack& pack, std::size_t build, Voice voice, const Reals& share) {
  const PackTables tables(pack, {});
  CHECK(tables.works(0, build).voice == voice);
  check_row(tables.works(0, build).share, share);
}

}  // namespace

TEST_CASE("Oracle: a silent plant takes after the other plants of its variant, by their numbers", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}});
  add_plant(pack, 3);
  add_plant(pack, 4);
  add_plain(pack, 2).facts = {at_plant(pack, 0, 0), at_plant(pack, 1, 1)};
  // Plants of shares 1 and 3 speak: 1/4 and 3/4. .75 of that and half of .25 each.
  check_build(pack, 2, Voice::related, {0.3125L, 0.6875L, 0});
}

TEST_CASE("Oracle: a silent market takes after the others where they don't differ", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}, {0, 0}});
  add_market(pack, 1);
  // The second variant, which names the other value, is farther off than the same variant in another market.
  add_plain(pack, 2).facts = {in_market(pack, 0, 0), of_variant(pack, 1, 1)};
  pack.features[0].facts[0].scope.variants = just(2, 0);
  check_build(pack, 1, Voice::related, {0.875L, 0.125L, 0});
}

TEST_CASE("Oracle: where markets differ a silent one is unrelated, and no look tells for it or against it",
          "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}});
  add_market(pack, 3);
  add_market(pack, 4);
  Feature& feature = add_plain(pack, 2);
  feature.facts = {in_market(pack, 0, 0), in_market(pack, 1, 1)};
  feature.changes = {{0, in_market(pack, 0, 0).scope, {}, 1}};
  check_build(pack, 2, Voice::unrelated, {0.25L, 0.75L, 0});
  for (std::size_t value = 0; value <= 2; ++value) {
    const Answer answer = Model(pack, {{}, {{0, {value}, "seen", "probable"}}}).answer();
    INFO("value " << value);
    CHECK(static_cast<double>(answer.build[2]) == by_hand(0.5L));  // its share of 4 in 8
    CHECK(static_cast<double>(answer.looks[0].p_silent) == by_hand(0.5L));
  }
}

TEST_CASE("Oracle: a market that has no such feature differs from one that has", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}});
  add_market(pack, 3);
  add_market(pack, 4);
  Feature& feature = add_plain(pack, 2);
  feature.applies.markets = {true, false, true};
  feature.facts = {in_market(pack, 0, 0)};
  // The first has value 0, the second `other` ("counts as spoken"): the third has no relative. The mean is over those that have
  // it.
  check_build(pack, 1, Voice::no_such, {0, 0, 1});
  check_build(pack, 2, Voice::unrelated, {1, 0, 0});
}

TEST_CASE("Oracle: generation and body, then the generation, then its neighbours", "[outside][oracle][by-hand]") {
  // The silent one is the first of each list; value 0 is that of the nearest relative, value 1 that of one farther off.
  const auto nearest = [](const std::vector<std::pair<std::size_t, std::size_t>>& variants) {
    SmallPack pack = one_month(variants);
    add_plain(pack, 2);
    for (std::size_t v = 1; v < variants.size(); ++v) pack.features[0].facts.push_back(of_variant(pack, v, v == 1 ? 0 : 1));
    check_build(pack, 0, Voice::related, {0.875L, 0.125L, 0});
  };
  nearest({{0, 0}, {0, 0}, {1, 0}});  // generation and body before a neighbour
  nearest({{0, 0}, {0, 1}, {1, 0}});  // another body of the generation before a neighbour
  nearest({{0, 0}, {1, 0}, {2, 0}});  // a neighbour; the one after that is none
}

TEST_CASE("Oracle: both neighbours of a generation count, by their numbers", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}, {1, 0}, {2, 0}, {3, 0}});
  pack.variants[2].units = 300;
  add_plain(pack, 3).facts = {of_variant(pack, 0, 0), of_variant(pack, 2, 1), of_variant(pack, 3, 2)};
  // 100 of the one before, 300 of the one after: .75 x (1/4, 3/4) + .25 / 3 for each value that facts name.
  check_build(pack, 1, Voice::related, {0.1875L + 0.25L / 3, 0.5625L + 0.25L / 3, 0.25L / 3, 0});
}

TEST_CASE("Oracle: where bodies differ only the same body is a relative", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}, {0, 1}, {1, 0}, {1, 2}});
  add_plain(pack, 2).facts = {of_variant(pack, 0, 0), of_variant(pack, 1, 1)};
  check_build(pack, 2, Voice::related, {0.875L, 0.125L, 0});  // body 0 of the generation before
  check_build(pack, 3, Voice::unrelated, {0.5L, 0.5L, 0});    // there is no other of body 2
}

TEST_CASE("Oracle: relatives are of the same month", "[outside][oracle][by-hand]") {
  SmallPack pack = hand_pack(2);
  add_plain(pack, 2).facts = {of_variant(pack, 1, 1)};
  check_build(pack, 0, Voice::unrelated, {0, 1, 0});
}

TEST_CASE("Oracle: options are added where something standard is known", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}});
  add_plant(pack, 1);
  Fact option{1};
  option.fitted = "option";
  option.share = 0.2;
  add_plain(pack, 3).facts = {at_plant(pack, 0, 0), option};
  check_build(pack, 0, Voice::spoken, {0.8L, 0.2L, 0, 0});
  check_build(pack, 1, Voice::related, {0.725L, 0.275L, 0, 0});  // .75 x (.8, .2) + .25 x (.5, .5)
  pack.features[0].facts = {option};
  check_build(pack, 0, Voice::mute, {0, 1, 0, 0});  // even over the values that a fact names: one
  pack.features[0].facts.clear();
  check_build(pack, 0, Voice::mute, {1.0L / 3, 1.0L / 3, 1.0L / 3, 0});
}

TEST_CASE("Oracle: a law that takes less than half doesn't speak", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}, {0, 0}});
  pack.markets[0].country = "GB";
  // Of first use from month 5, any of the thirteen months from six before to six after: of month 0 it bound 1.5 / 13 (FORMAT.md).
  pack.laws = {{"GB", {"car"}, "first-used", {5, 1}, {}}};
  Feature& feature = add_plain(pack, 2);
  feature.laws = {{0, 1}};
  feature.facts = {of_variant(pack, 1, 0)};
  check_build(pack, 0, Voice::related, {0.875L, 0.125L, 0});
  // Two months after the date 8.5 of 13: 0.95 x 8.5 / 13 had it, the rest even over both values.
  pack.laws[0].from.month = -2;
  const Real bound = 0.95L * 8.5L / 13;
  check_build(pack, 0, Voice::spoken, {(1 - bound) / 2, bound + (1 - bound) / 2, 0});
}

TEST_CASE("Oracle: what a number dates is the vehicle's own; its relatives go by their dates", "[outside][oracle][by-hand]") {
  SmallPack pack = one_month({{0, 0}, {0, 0}});
  Fact old{0}, fresh{1};
  old.to = fresh.from = Window{0, 0};
  old.to_number = fresh.from_number = 500;
  old.scope = fresh.scope = of_variant(pack, 0, 0).scope;
  add_plain(pack, 2).facts = {old, fresh};
  const PackTables tables(pack, {});
  // By date half of the month is on either side; serial 600 is after the change. The other variant is silent: .75 x (.5, .5) +
  // .25 x ...
  check_row(tables.works_by_number(0, 600)[0].share, {0, 1, 0});
  check_row(tables.works_by_number(0, 600)[1].share, {0.5L, 0.5L, 0});
}
