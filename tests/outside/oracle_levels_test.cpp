#include "oracle_hand.hpp"

/// How much a vehicle was altered (section 5), by hand. Levels 1/3 1 3 9 with shares .42 .42 .12 .04 (common practice, no
/// source).
using namespace exworks::test::oracle;

namespace {

/// One build; features that left the works with value 0 and are changed, one in ten, to value 1 and nothing else.
SmallPack altered_pack(std::size_t features) {
  SmallPack pack = hand_pack(1);
  with_clear_eyes(pack.rates);
  pack.rates.known = 1;
  for (std::size_t f = 0; f < features; ++f) {
    Feature& feature = add_plain(pack, 2);
    feature.altered = 0.1;
    feature.facts = {of_variant(pack, 0, 0)};
    feature.changes = {{1, {}, {}, 1}};
  }
  return pack;
}

/// kq / (1 - q + kq) for q = 1/10: (1/3) / (9 + 1/3) = 1/28, 1/10, 3/12, 9/18.
const Reals rate_at{1.0L / 28, 0.1L, 0.25L, 0.5L}, shares{0.42L, 0.42L, 0.12L, 0.04L};

/// Shares times weights, over their sum.
Reals weighed(const Reals& weight) {
  Reals out;
  for (std::size_t k = 0; k < 4; ++k) out.push_back(shares[k] * weight[k]);
  const Real all = sum(out);
  for (Real& p : out) p /= all;
  return out;
}

Reals levels(const Answer& answer) {
  return {answer.level.begin(), answer.level.end()};
}

}  // namespace

TEST_CASE("Oracle: one change speaks for a much altered vehicle", "[outside][oracle][by-hand]") {
  const Answer answer = Model(altered_pack(1), {{}, {saw(0, 1)}}).answer();
  // .42/28 + .042 + .03 + .02 = .015 + .042 + .03 + .02 = .107
  CHECK(static_cast<double>(answer.evidence) == by_hand(0.107L));
  check_row(levels(answer), {0.015L / 0.107L, 0.042L / 0.107L, 0.03L / 0.107L, 0.02L / 0.107L});
  CHECK(static_cast<double>(answer.looks[0].p_type) == by_hand(0));
}

TEST_CASE("Oracle: what one part teaches of the vehicle goes to the next", "[outside][oracle][by-hand]") {
  const SmallPack pack = altered_pack(3);
  const Answer two = Model(pack, {{}, {saw(0, 1), saw(1, 1)}}).answer();
  Reals squares, cubes;
  for (const Real q : rate_at) squares.push_back(q * q), cubes.push_back(q * q * q);
  check_row(levels(two), weighed(squares));
  const Answer three = Model(pack, {{}, {saw(0, 1), saw(1, 1), saw(2, 1)}}).answer();
  check_row(levels(three), weighed(cubes));
  // That the third was changed, when two were: sum of share q^3 over sum of share q^2.
  Real second = 0, third = 0;
  for (std::size_t k = 0; k < 4; ++k) second += shares[k] * squares[k], third += shares[k] * cubes[k];
  CHECK(static_cast<double>(three.evidence / two.evidence) == by_hand(third / second));
}

TEST_CASE("Oracle: levels collapse where all vehicles live one life", "[outside][oracle][by-hand]") {
  SmallPack pack = altered_pack(2);
  with_one_level(pack.rates);
  const Answer answer = Model(pack, {{}, {saw(0, 1), saw(1, 0)}}).answer();
  CHECK(static_cast<double>(answer.evidence) == by_hand(0.09L));  // .1 x .9
  check_row(levels(answer), {0, 1, 0, 0});
  // Four levels that don't differ are one, too.
  pack.rates = altered_pack(0).rates;
  pack.rates.levels = {1, 1, 1, 1};
  const Answer even = Model(pack, {{}, {saw(0, 1), saw(1, 0)}}).answer();
  CHECK(static_cast<double>(even.evidence) == by_hand(0.09L));
  check_row(levels(even), shares);
}

TEST_CASE("Oracle: the serial of an assembly keeps its rate, its assembly doesn't", "[outside][oracle][by-hand]") {
  SmallPack pack = hand_pack(1);
  with_clear_eyes(pack.rates);
  pack.rates.unnamed_outside = 1;  // whatever was replaced came from outside: serial even over two rows and `other`
  pack.rates.number_error = {0.3, 0.3, 0.3};
  pack.assemblies = {{0.1, {}}};
  Number number{0, {{{}, {}, {}, {{{}, "", 1, 4}}}}, {{1, 10, {0, 0}, {0, 0}, {}, {}, 0}, {11, 20, {5, 5}, {5, 5}, {}, {}, 0}}};
  pack.numbers = {number};
  Visit visit;
  visit.numbers = {{0, "15"}};
  // Row 2 on a build of month 0, which had row 1. Wrong by itself: .3 x R(row 2) = .1, at whatever level, since a serial may be any of
  // the two rows and `other`. Another assembly brings it to a third of what was replaced, at each level.
  const Answer answer = Model(pack, visit).answer();
  Reals seen(4, 0);
  Real due = 0, replaced = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    seen[k] = (1 - rate_at[k]) * 0.1L + rate_at[k] / 3;
    due += shares[k] * seen[k];
    replaced += shares[k] * rate_at[k] / 3;
  }
  check_row(levels(answer), weighed(seen));
  CHECK(static_cast<double>(answer.evidence) == by_hand(due));
  CHECK(static_cast<double>(answer.assemblies[0].p_replaced) == by_hand(replaced / due));
  // Row 1: as it was (.7 + .3 / 3 = .8) unless replaced, at whatever level.
  visit.numbers = {{0, "5"}};
  Real own = 0;
  for (std::size_t k = 0; k < 4; ++k) own += shares[k] * ((1 - rate_at[k]) * 0.8L + rate_at[k] / 3);
  CHECK(static_cast<double>(Model(pack, visit).answer().evidence) == by_hand(own));
}
