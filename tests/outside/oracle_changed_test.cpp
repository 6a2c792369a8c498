#include "oracle_hand.hpp"

/// Changed by itself (section 6), by hand. Known changes .6, from outside .4 of the rest, later values three times as readily as
/// earlier ones (common practice, no source).
using namespace exworks::test::oracle;

namespace {

/// Builds of three months, as many of each, with values 0, 1 and 2.
SmallPack three_months() {
  SmallPack pack = hand_pack(3);
  Feature& feature = add_plain(pack, 3);
  for (std::size_t v = 0; v < 3; ++v) feature.facts.push_back(of_variant(pack, v, v));
  return pack;
}

Reals changed(const SmallPack& pack, std::size_t build, std::optional<int> month = {}) {
  return all_of(pack.features[0], PackTables(pack, month).changed(0, build));
}

}  // namespace

TEST_CASE("Oracle: later values of the family are three times as likely as its own and earlier ones",
          "[outside][oracle][by-hand]") {
  const SmallPack pack = three_months();
  // G is a third each; the mean months are 0, 1 and 2. .6 of it in 1 : 3 : 3, 1 : 1 : 3, 1 : 1 : 1; the rest `other`.
  check_row(changed(pack, 0), {0.6L / 7, 1.8L / 7, 1.8L / 7, 0.4L});
  check_row(changed(pack, 1), {0.12L, 0.12L, 0.36L, 0.4L});
  check_row(changed(pack, 2), {0.2L, 0.2L, 0.2L, 0.4L});
}

TEST_CASE("Oracle: how common a value was weighs, and the mean month of a build that had several", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  pack.variants[0].units = 100, pack.variants[1].units = 100, pack.variants[2].units = 200;
  pack.features[0].facts[2].share = 0.5;  // of the last half had value 2, half value 0
  Fact beside = of_variant(pack, 2, 0);
  beside.share = 0.5;
  pack.features[0].facts.push_back(beside);
  // G: value 0 1/4 + 1/4, value 1 1/4, value 2 1/4. Mean months: 0: (0 + 2) / 2 = 1; 1: 1; 2: 2. The last build: (1 + 2) / 2
  // = 1.5.
  check_row(changed(pack, 0), {0.6L * 2 / 6, 0.6L * 1 / 6, 0.6L * 3 / 6, 0.4L});
  check_row(changed(pack, 2), {0.6L * 2 / 6, 0.6L * 1 / 6, 0.6L * 3 / 6, 0.4L});
}

TEST_CASE("Oracle: known changes take six tenths, as far as they were possible by the day", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  pack.features[0].changes = {{2, {}, {}, 2}, {0, {}, Window{100, 108}, 1}, {1, of_variant(pack, 0, 0).scope, {}, 5}};
  // In month 104, the fifth of nine, half of the second was possible: shares 2 and .5; the third is not for this build. Rest as
  // above x .4.
  check_row(changed(pack, 1, 104), {0.12L + 0.048L, 0.048L, 0.48L + 0.144L, 0.16L});
  // Before it: the first alone. Without a day: all of it.
  check_row(changed(pack, 1, 90), {0.048L, 0.048L, 0.6L + 0.144L, 0.16L});
  check_row(changed(pack, 1), {0.2L + 0.048L, 0.048L, 0.4L + 0.144L, 0.16L});
}

TEST_CASE("Oracle: a feature says how much comes from outside", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  pack.features[0].foreign = 0.9;
  check_row(changed(pack, 1), {0.02L, 0.02L, 0.06L, 0.9L});
}

TEST_CASE("Oracle: a build whose own value has no month leans nowhere", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  // The first had none of the named: a third of the family has no part in G.
  pack.features[0].facts[0] = of_variant(pack, 0, 3);
  check_row(changed(pack, 0), {0, 0.3L, 0.3L, 0.4L});
  check_row(changed(pack, 1), {0, 0.15L, 0.45L, 0.4L});
  // Nor does one that has no such feature, whatever is found there.
  pack = three_months();
  pack.features[0].applies.variants = {false, true, true};
  check_row(changed(pack, 0), {0, 0.3L, 0.3L, 0.4L});
  // And where nothing is said of any: even over the named values.
  pack.features[0].facts.clear();
  check_row(changed(pack, 1), {0.2L, 0.2L, 0.2L, 0.4L});
}

TEST_CASE("Oracle: of a silent build without relatives changes are those of the others on average",
          "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  Feature& feature = pack.features[0];
  feature.facts.pop_back();  // nothing is said of the last; it has no relative of its month
  feature.changes = {{2, of_variant(pack, 0, 0).scope, {}, 1}, {2, of_variant(pack, 2, 0).scope, {}, 1}};
  // Of the first: .6 to value 2, .4 x (.6 x (1/4, 3/4), .4). Of the second: .6 x (1/2, 1/2), .4. The mean of both; its own known
  // change doesn't count.
  check_row(changed(pack, 0), {0.06L, 0.18L, 0.6L, 0.16L});
  check_row(changed(pack, 1), {0.3L, 0.3L, 0, 0.4L});
  check_row(changed(pack, 2), {0.18L, 0.24L, 0.3L, 0.28L});
}

TEST_CASE("Oracle: a class gives a feature its rate", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  Feature& feature = pack.features[0];
  CHECK(static_cast<double>(altered(pack, feature)) == by_hand(0.04));
  feature.kind = "accessory";
  CHECK(static_cast<double>(altered(pack, feature)) == by_hand(0.3));
  feature.altered = 0.07;
  CHECK(static_cast<double>(altered(pack, feature)) == by_hand(0.07));
}

TEST_CASE("Oracle: what it was changed to, and why, of one look", "[outside][oracle][by-hand]") {
  SmallPack pack = three_months();
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  pack.features[0].altered = 0.1;
  pack.features[0].changes = {{2, of_variant(pack, 0, 0).scope, {}, 1}};
  // Value 2 is seen. First: .1 x (.6 + .4 x 1.8 / 7) = .1 x (.6 + .72 / 7); second: .1 x .36; third: .9 + .1 x .2, all as built.
  const Real known = 0.06L, family = 0.1L * 0.72L / 7, second = 0.036L, third = 0.92L;
  const Answer answer = Model(pack, {{}, {saw(0, 2)}}).answer();
  const Real all = known + family + second + third;
  check_row(answer.build, {(known + family) / all, second / all, third / all});
  const LookAnswer& look = answer.looks[0];
  CHECK(static_cast<double>(look.p_type) == by_hand(third / all));
  CHECK(static_cast<double>(look.p_untouched) == by_hand(0.9L / all));
  using Kind = Reason::Kind;
  const Real later = known + family + second;
  CHECK(static_cast<double>(look.explanations.at({Kind::known_change, 0})) == by_hand(known / later));
  CHECK(static_cast<double>(look.explanations.at({Kind::family_by_itself, 0})) == by_hand((family + second) / later));
  CHECK(static_cast<double>(look.explanations.at({Kind::outside_by_itself, 0})) == by_hand(0));
  // A third of each build without the look; as built .9, and what came back by chance: .1 x (.4 x .6 / 7, .12, .2) of the three.
  const Real before = 0.9L + 0.1L * (0.24L / 7 + 0.12L + 0.2L) / 3;
  CHECK(static_cast<double>(look.type_before) == by_hand(before));
  CHECK(static_cast<double>(look.ratio) == by_hand(third / 3 / before / (later / 3 / (1 - before))));
}
