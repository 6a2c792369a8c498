#include "oracle_hand.hpp"

/// Assemblies (section 7), by hand. A tenth of the replaced came from outside and nobody named it (`other` .6, the rest even);
/// donors of the family that are later come three times as often (common practice, no source).
using namespace exworks::test::oracle;

namespace {

/// An assembly of two features over some months, of which one in ten was replaced; nothing was changed by itself. `value`: of a feature in
/// a month, counted from 0.
template <class Value>
SmallPack assembly_of_two(std::size_t months, Value value) {
  SmallPack pack = hand_pack(months);
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  pack.assemblies = {{0.1, {}}};
  for (std::size_t f = 0; f < 2; ++f) {
    Feature& feature = add_plain(pack, 2);
    feature.assembly = 0;
    feature.altered = 0;
    for (std::size_t m = 0; m < months; ++m) feature.facts.push_back(of_variant(pack, m, value(f, m)));
  }
  return pack;
}

/// Two months; in the first both features of the assembly had value 0, in the second value 1.
SmallPack two_months() {
  return assembly_of_two(2, [](std::size_t, std::size_t month) { return month; });
}

}  // namespace

TEST_CASE("Oracle: a later assembly in an earlier vehicle", "[outside][oracle][by-hand]") {
  // Donors of the first month: 1 : 3; of the second, which none is later than, 1 : 1. From outside each named value has .2.
  // First: .1 x (.1 x .04 + .9 x .75) = .0679. Second: .9 + .1 x (.1 x .04 + .9 x .5) = .9454.
  const Answer answer = Model(two_months(), {{}, {saw(0, 1), saw(1, 1)}}).answer();
  const Real first = 0.0679L, second = 0.9454L, all = first + second;
  CHECK(static_cast<double>(answer.evidence) == by_hand(all / 2));
  check_row(answer.build, {first / all, second / all});
  const AssemblyAnswer& assembly = answer.assemblies[0];
  const Real replaced = first + 0.0454L;
  CHECK(static_cast<double>(assembly.p_replaced) == by_hand(replaced / all));
  check_row(assembly.donor, {0, (0.0675L + 0.045L) / replaced});
  CHECK(static_cast<double>(assembly.p_unnamed) == by_hand(0.0008L / replaced));
  // On the first it is of the wrong type; on the second of the right one, whoever brought it.
  const LookAnswer& look = answer.looks[0];
  CHECK(static_cast<double>(look.p_type) == by_hand(second / all));
  CHECK(static_cast<double>(look.p_untouched) == by_hand(0.9L / all));
  using Kind = Reason::Kind;
  CHECK(static_cast<double>(look.explanations.at({Kind::donor, 0})) == by_hand(0.0675L / first));
  CHECK(static_cast<double>(look.explanations.at({Kind::unnamed_donor, 0})) == by_hand(0.0004L / first));
}

TEST_CASE("Oracle: an assembly of nobody's", "[outside][oracle][by-hand]") {
  // `other` on both: only an outside donor that nobody named, .1 x .1 x .36 on either build.
  const Answer answer = Model(two_months(), {{}, {saw(0, 2), saw(1, 2)}}).answer();
  CHECK(static_cast<double>(answer.evidence) == by_hand(0.0036L));
  check_row(answer.build, {0.5L, 0.5L});
  CHECK(static_cast<double>(answer.assemblies[0].p_unnamed) == by_hand(1));
  CHECK(static_cast<double>(answer.looks[0].explanations.at({Reason::Kind::unnamed_donor, 0})) == by_hand(1));
}

TEST_CASE("Oracle: the vehicle's donors of the family are what named outside donors leave", "[outside][oracle][by-hand]") {
  SmallPack pack = two_months();
  // On the first month alone, two fifths as far as possible: month 104 is the fifth of nine. It sets the first feature to
  // `other`.
  pack.outsides = {{0, of_variant(pack, 0, 0).scope, Window{100, 108}, 0.4, {{0, 2}}}};
  // Seen: `other`, 0. First: named outside .1 x .9 x .2 x (second left as it was) 1 = .018; unnamed .1 x .1 x .6 x .2 = .0012.
  // Second: unnamed .0012.
  const Answer answer = Model(pack, {104, {saw(0, 2), saw(1, 0)}}).answer();
  check_row(answer.build, {0.0192L / 0.0204L, 0.0012L / 0.0204L});
  check_row(answer.assemblies[0].outside, {0.018L / 0.0204L});
  // The second feature is untouched where the outside donor left it alone.
  CHECK(static_cast<double>(answer.looks[1].p_untouched) == by_hand(0.018L / 0.0204L));
  CHECK(static_cast<double>(answer.looks[0].explanations.at({Reason::Kind::outside_donor, 0})) == by_hand(0.018L / 0.0204L));
  // 1 and 1 on the first: the family has .8 of its nine tenths. .1 x (.1 x .04 + .9 x .8 x .75) = .0544.
  const Answer family = Model(pack, {104, {saw(0, 1), saw(1, 1)}}).answer();
  check_row(family.build, {0.0544L / 0.9998L, 0.9454L / 0.9998L});
}

TEST_CASE("Oracle: later is by the whole assembly, also by what was not looked at", "[outside][oracle][by-hand]") {
  // Three months; the first feature changes after the first, the second after the second.
  SmallPack pack = assembly_of_two(3, [](std::size_t feature, std::size_t month) -> std::size_t { return month > feature ? 1 : 0; });
  // Seen: the first feature alone, 1. Donors of the first month 1 : 3 : 3, of the second 1 : 1 : 3, of the third 1 : 1 : 1.
  const Answer answer = Model(pack, {{}, {saw(0, 1)}}).answer();
  const Real first = 0.1L * (0.1L * 0.2L + 0.9L * 6 / 7), second = 0.9L + 0.1L * (0.02L + 0.9L * 4 / 5),
             third = 0.9L + 0.1L * (0.02L + 0.9L * 2 / 3);
  check_row(answer.build,
            {first / (first + second + third), second / (first + second + third), third / (first + second + third)});
  // With the second feature alike in all months, months two and three are one kind, of mean month 1.5: neither is later.
  pack.features[1].facts = {{0}};
  const Real alike = 0.9L + 0.1L * (0.02L + 0.9L * 2 / 3);
  const Answer same = Model(pack, {{}, {saw(0, 1)}}).answer();
  check_row(same.build, {first / (first + 2 * alike), alike / (first + 2 * alike), alike / (first + 2 * alike)});
}

TEST_CASE("Oracle: a donor's part may have been changed by itself, too", "[outside][oracle][by-hand]") {
  SmallPack pack = two_months();
  pack.rates.unnamed_outside = 0;
  pack.features[0].altered = 0.2;
  // R of the donor of month 2 is .3 0, .3 1, .4 `other` (value 0 isn't later); of month 1 .15, .45, .4.
  // Seen `other` in the first feature and 1 in the second. First: .1 x .75 x .2 x .4; what was there had 0. Second: .2 x .4 x (.9
  // + .1 x .5).
  const Answer answer = Model(pack, {{}, {saw(0, 2), saw(1, 1)}}).answer();
  const Real first = 0.006L, second = 0.076L, all = first + second;
  check_row(answer.build, {first / all, second / all});
  // Whose part it was is said first: a donor of the family; of the second month's own, from outside by itself.
  using Kind = Reason::Kind;
  CHECK(static_cast<double>(answer.looks[0].explanations.at({Kind::donor, 0})) == by_hand((first + 0.004L) / all));
  CHECK(static_cast<double>(answer.looks[0].explanations.at({Kind::outside_by_itself, 0})) == by_hand(0.072L / all));
}

TEST_CASE("Oracle: the level moves how often assemblies were replaced", "[outside][oracle][by-hand]") {
  SmallPack pack = two_months();
  pack.rates.level_shares = {0.42, 0.42, 0.12, 0.04};
  // `other` twice: share of level k times its rate (1/28, 1/10, 1/4, 1/2) times .036.
  const Answer answer = Model(pack, {{}, {saw(0, 2), saw(1, 2)}}).answer();
  CHECK(static_cast<double>(answer.evidence) == by_hand(0.107L * 0.036L));
  check_row({answer.level.begin(), answer.level.end()}, {0.015L / 0.107L, 0.042L / 0.107L, 0.03L / 0.107L, 0.02L / 0.107L});
}
