#include "oracle_hand.hpp"
#include "oracle_works.hpp"

/// Dates in doubt, worked out with a pocket calculator from the handbook's page on the arithmetic, section 4, and the one on numbers.
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

/// Value 0 up to the month, value 1 from it on, both on one published source.
SmallPack changed_in(int month) {
  SmallPack pack = hand_pack(1);
  pack.variants.front().built = {0, 40};
  Feature& feature = add_plain(pack, 2);
  feature.facts = {{0, {}, {}, Window{month, month}}, {1, {}, Window{month, month}, {}}};
  return pack;
}

Real new_kind(const SmallPack& pack, int month) { return said(pack, pack.features.front(), {0, month, 0, 0}, {})->share[1]; }

}  // namespace

TEST_CASE("Oracle: an edge that one source gives lies within two months, or a year off", "[outside][oracle][by-hand]") {
  const SmallPack pack = changed_in(20);
  // In the month itself half are past it, however wide it is.
  CHECK(new_kind(pack, 20) == by_hand(0.5L));
  // Two months before: half a fifth on the five months of the window, 10.5 of 25 on those of the year: .97 x .1 + .03 x .42.
  CHECK(new_kind(pack, 18) == by_hand(0.1096L));
  // Three months before only the year is left: .03 x 9.5 / 25; thirteen months before nothing.
  CHECK(new_kind(pack, 17) == by_hand(0.0114L));
  CHECK(new_kind(pack, 7) == by_hand(0));
  CHECK(new_kind(pack, 22) == by_hand(1 - 0.1096L));
}

TEST_CASE("Oracle: a doubtful date is no knowledge of the time before the first fact", "[outside][oracle][by-hand]") {
  SmallPack pack = changed_in(20);
  pack.features.front().facts.erase(pack.features.front().facts.begin());
  // The pack speaks from month 20 on: it is silent on 19, though the edge may lie there.
  CHECK_FALSE(said(pack, pack.features.front(), {0, 19, 0, 0}, {}).has_value());
  CHECK(new_kind(pack, 20) == by_hand(1));
}

TEST_CASE("Oracle: two sources are trusted to a month, memory to six", "[outside][oracle][by-hand]") {
  SmallPack pack = changed_in(20);
  for (Fact& fact : pack.features.front().facts) fact.backing = 0;
  CHECK(new_kind(pack, 19) == by_hand(0.97L / 6 + 0.03L * 11.5L / 25));
  for (Fact& fact : pack.features.front().facts) fact.backing = 3;
  CHECK(new_kind(pack, 19) == by_hand(0.97L * 5.5L / 13 + 0.03L * 11.5L / 25));
}

TEST_CASE("Oracle: a vehicle looks like its neighbours in time, within its own row", "[outside][oracle][by-hand]") {
  SmallPack pack = hand_pack(1);
  pack.variants.front().built = {5, 9};
  const std::vector<Build> builds = list_builds(pack).list;
  CHECK(builds[looks_like(builds, 2, 1)].month == 6);   // built in month 7, changes a month late: as one of month 6
  CHECK(builds[looks_like(builds, 2, -2)].month == 9);
  CHECK(builds[looks_like(builds, 2, 3)].month == 5);   // none earlier than the first
}

TEST_CASE("Oracle: an offset blurs the month by its shares", "[outside][oracle][by-hand]") {
  // Three months, a change in the second half of them that nobody doubts; no slips, no changes; offsets of -1, 0, 1 month by .2 .5 .3.
  SmallPack pack = hand_pack(1);
  pack.variants.front().built = {0, 2};
  pack.rates.edge_months = {0, 0, 0, 0};
  pack.rates.wrong_year = 0;
  pack.rates.offset_shares = {0.2, 0.5, 0.3};
  with_clear_eyes(pack.rates);
  with_one_level(pack.rates);
  Feature& feature = add_plain(pack, 2);
  feature.facts = {{0, {}, {}, Window{2, 2}}, {1, {}, Window{2, 2}, {}}};
  feature.altered = 0.0001;
  Visit visit;
  visit.looks = {saw(0, 1)};
  const Answer answer = Model(pack, visit).answer();
  // The new kind is on half of month 2, on none before. Month 2 shows it unless the changes came late (.3): (.2 + .5) / 2. Month 1 shows it where they came
  // early: .2 / 2. Month 0 never does. What is altered by itself is too rare to count.
  const Real two = 0.35L, one = 0.1L;
  CHECK(static_cast<double>(answer.build[2]) == Approx(static_cast<double>(two / (one + two))).epsilon(0.01));
  CHECK(static_cast<double>(answer.build[1]) == Approx(static_cast<double>(one / (one + two))).epsilon(0.01));
}

TEST_CASE("Oracle: serials wander between the points that are known", "[outside][oracle][by-hand]") {
  const Range range{1, 1200, {0, 0}, {11, 11}, {}, {}, 1};
  // Point 10.5 of twelve months: .35 sqrt(10.5 x 1.5 / 12) = .40, so the floor of .7. Within half a month, .5 / .7 = .714 sd: .5249 of nine tenths,
  // and a 24th of one tenth (tables of the normal distribution).
  CHECK(static_cast<double>(issued_in(range, 10.5L, 10)) == Approx(0.9 * 0.5249 + 0.1 / 24).margin(1e-4));
  // Half way: .35 sqrt(6 x 6 / 12) = .606, still the floor; over four years it is .35 sqrt(24 x 24 / 48) = 1.212.
  const Range long_range{1, 4800, {0, 0}, {47, 47}, {}, {}, 1};
  CHECK(static_cast<double>(issued_in(long_range, 24.0L, 24)) == Approx(0.9 * 0.2953 + 0.1 / 24).margin(1e-4));  // 1 / 1.212 = .825 sd on one side
  Real all = 0;
  for (int month = -40; month < 60; ++month) all += issued_in(range, 10.5L, month);
  CHECK(all == by_hand(1));
}
