#include "oracle_noted.hpp"
#include "oracle_hand.hpp"

/// What an inspector notes (section 1 and 2 of the arithmetic), by hand. Rates: confusion .02 .10 .25, wrong line .001 .005 .02,
/// not recognised .0003 .01 .05, taken for one of ours .05 .15 .30 (common practice, no source).
using namespace exworks::test::oracle;

namespace {

/// a looks like b; c like nothing.
Feature abc() {
  Feature out;
  out.values = 3;
  out.looks_like = {{0, 1}};
  return out;
}

const PackRates rates;

}  // namespace

TEST_CASE("Oracle: a value with a look-alike, one without, and a kind from outside", "[outside][oracle][by-hand]") {
  // Of a: b by confusion .02 and by the wrong line .001 / 2; c by the wrong line; `other` .0003; itself 1 - .0213.
  check_row(noted(abc(), rates, 0, 0), {0.9787L, 0.0205L, 0.0005L, 0.0003L});
  // Alike is alike both ways.
  check_row(noted(abc(), rates, 1, 0), {0.0205L, 0.9787L, 0.0005L, 0.0003L});
  check_row(noted(abc(), rates, 2, 0), {0.0005L, 0.0005L, 0.9987L, 0.0003L});
  // `other` there: .05 over the three.
  check_row(noted(abc(), rates, 3, 0), {0.05L / 3, 0.05L / 3, 0.05L / 3, 0.95L});
  // A guess at a: b .25 + .02 / 2, c .01, `other` .05, itself 1 - .32.
  check_row(noted(abc(), rates, 0, 2), {0.68L, 0.26L, 0.01L, 0.05L});
}

TEST_CASE("Oracle: a kind from outside goes to the values that look like none of these", "[outside][oracle][by-hand]") {
  Feature feature = abc();
  feature.looks_like.emplace_back(1, 3);
  feature.looks_like.emplace_back(2, 3);
  check_row(noted(feature, rates, 3, 1), {0, 0.075L, 0.075L, 0.85L});
  // b is not taken for `other` more often for that.
  check_row(noted(feature, rates, 1, 0), {0.0205L, 0.9787L, 0.0005L, 0.0003L});
}

TEST_CASE("Oracle: a pair with a rate of its own keeps step with how sure the inspector was", "[outside][oracle][by-hand]") {
  Feature feature = abc();
  feature.alike = {{2, 0, 0.05}};
  // Of a two look-alikes: b .02 / 2 + .0005; c .05 / 2 + .0005; `other` .0003; itself 1 - .0363.
  check_row(noted(feature, rates, 0, 0), {0.9637L, 0.0105L, 0.0255L, 0.0003L});
  // Of c one: a .05 + .0005.
  check_row(noted(feature, rates, 2, 0), {0.0505L, 0.0005L, 0.9487L, 0.0003L});
  // Probable is five times the confusion: b .10 / 2 + .0025; c .25 / 2 + .0025; `other` .01; itself 1 - .19.
  check_row(noted(feature, rates, 0, 1), {0.81L, 0.0525L, 0.1275L, 0.01L});
  // The pair's own rate holds where `looks-like` names it, too.
  feature.looks_like.emplace_back(0, 2);
  check_row(noted(feature, rates, 0, 0), {0.9637L, 0.0105L, 0.0255L, 0.0003L});
}

TEST_CASE("Oracle: at least a tenth is left for what is there", "[outside][oracle][by-hand]") {
  Feature feature = plain_values(2);
  feature.alike = {{0, 1, 0.4}};
  // A guess: .4 x .25 / .02 = 5, the wrong line .02, `other` .05: 5.07 in all, scaled to .9.
  check_row(noted(feature, rates, 0, 2), {0.1L, 0.9L * 5.02L / 5.07L, 0.9L * 0.05L / 5.07L});
}

TEST_CASE("Oracle: a feature of one named value has no wrong line", "[outside][oracle][by-hand]") {
  check_row(noted(plain_values(1), rates, 0, 1), {0.99L, 0.01L});
  check_row(noted(plain_values(1), rates, 1, 1), {0.15L, 0.85L});
}

TEST_CASE("Oracle: told and photo are a step less sure", "[outside][oracle][by-hand]") {
  CHECK(doubt("seen", "sure") == 0);
  CHECK(doubt("measured", "probable") == 1);
  CHECK(doubt("told", "sure") == 1);
  CHECK(doubt("photo", "probable") == 2);
  CHECK(doubt("photo", "guess") == 2);
}

TEST_CASE("Oracle: who tells of a kind from outside names it", "[outside][oracle][by-hand]") {
  // a is there. Told by one who is sure: another value of ours as from one to whom it is probable, .10 and .005 / 2; `other` as from one who is sure.
  check_row(noted_as(abc(), rates, {0, {3}, "told", "sure"}), {0.0003L, 0.0003L, 0.0003L, 0.85L});
  check_row(noted_as(abc(), rates, {0, {1}, "told", "sure"}), {0.1025L, 1 - 0.1025L - 0.0025L - 0.0003L, 0.0025L, 0.05L});
  // On a photo what can't be made out may be one of ours.
  check_row(noted_as(abc(), rates, {0, {3}, "photo", "sure"}), {0.01L, 0.01L, 0.01L, 0.85L});
}

TEST_CASE("Oracle: what is left open adds up", "[outside][oracle][by-hand]") {
  const Feature feature = abc();
  // a or b: of a .9787 + .0205, of c twice .0005, of `other` two of the three.
  check_row(noted_as(feature, rates, {0, {0, 1}}), {0.9992L, 0.9992L, 0.001L, 0.1L / 3});
  Look not_c{0, {2}};
  not_c.but = true;
  // `other` is among what "not c" leaves.
  CHECK(left_open(feature, not_c) == std::vector<std::size_t>{0, 1, 3});
  check_row(noted_as(feature, rates, not_c), {0.9995L, 0.9995L, 0.0013L, 1 - 0.05L / 3});
  // a or none of these: of a .9787 + .0003, of b .0205 + .0003.
  check_row(noted_as(feature, rates, {0, {0, 3}}), {0.979L, 0.0208L, 0.0008L, 0.95L + 0.05L / 3});
}

TEST_CASE("Oracle: a group stands for its values, a measure for those that it fits", "[outside][oracle][by-hand]") {
  Feature feature = abc();
  feature.groups = {{0, 2}};
  feature.measures = {{918, 2}, {948, 3}, {1098, 5}};
  const auto open = [&](double from, double to) {
    Look look{0, {}};
    look.measure = {from, to};
    return left_open(feature, look);
  };
  using Set = std::vector<std::size_t>;
  CHECK(left_open(feature, {0, {}, "seen", "sure", false, {0}}) == Set{0, 2});
  CHECK(left_open(feature, {0, {3}, "seen", "sure", false, {0}}) == Set{0, 2, 3});
  CHECK(left_open(feature, {0, {}, "seen", "sure", true, {0}}) == Set{1, 3});
  CHECK(open(920, 920) == Set{0});  // within two of 918
  CHECK(open(921, 921) == Set{3});  // one too many: none of the values
  CHECK(open(850, 950) == Set{0, 1});
  CHECK(open(921, 944) == Set{3});
  CHECK(open(921, 945) == Set{1});  // 948 - 3
  CHECK(open(900, 1200) == Set{0, 1, 2});
}
