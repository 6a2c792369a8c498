#include "support.hpp"

/// Dates and numbers as they are found, on real families. Where a figure has no source beside it, it is the trade's: common practice, no source.
using namespace exworks;
using namespace exworks::test;

namespace {

double p_own(const Assessment& a) {
  for (const NumberVerdict& n : a.numbers) {
    if (n.p_own) return *n.p_own;
  }
  FAIL("no identity number was judged");
  return 0;
}

int months(const Assessment& a) { return a.date.to - a.date.from + 1; }

}  // namespace

TEST_CASE("A works record that lies between two known numbers is believed, not the straight line between them", "[dates]") {
  // Between its known neighbours the straight line puts 447500 two months later than the works' own record does.
  const auto a = assess_lines(pack("mgb"), R"(<number id="car-number" text="GHN5/447500"/><document kind="build-record" built="1977-06"/>)");
  REQUIRE(a.documents.size() == 1);
  CHECK(a.documents.front().p_right >= 0.8);
  CHECK(p_own(a) >= 0.9);
}

TEST_CASE("A number that was stamped again, or copied, weighs less than one as the works left it", "[dates]") {
  const auto with = [](const std::string& more) {
    return p_own(assess_lines(pack("morris-minor"), R"(<number id="car-number" text="MA2S3 703821" )" + more + R"(/><observed feature="engine" value="cc-948"/>)"));
  };
  const double found = with(""), told = with(R"(how="told")"), guess = with(R"(sure="guess")"), copied = with(R"(state="copied")"), restamped = with(R"(state="restamped")");
  CHECK(found > told);
  CHECK(told == Approx(copied));  // from hearsay or from a copy: by the same step
  CHECK(copied > restamped);
  CHECK(restamped == Approx(guess));
}

TEST_CASE("A serial outside every range is doubted, not ruled out", "[dates]") {
  // The last Minor was number 1294082, built in April 1971 ("Identifying your car", MMOC Potteries Branch; POTT of the pack).
  const auto a = assess_lines(pack("morris-minor"), R"(<number id="car-number" text="MA2S5 9999999"/>)");
  CHECK(p_own(a) > 0.05);
  CHECK(p_own(a) < 0.9);
}

TEST_CASE("The beginning of a number tells the kind of car, not its month", "[dates]") {
  const auto whole = assess_lines(pack("mgb"), R"(<number id="car-number" text="GHN3/107465"/>)");
  const auto begun = assess_lines(pack("mgb"), R"(<number id="car-number" text="GHN3/??????"/>)");
  CHECK(pack("mgb").axes.variants[begun.variants.front().index].id.starts_with("roadster"));
  CHECK(months(whole) < 14);
  CHECK(months(begun) > 3 * months(whole));
}

TEST_CASE("Two figures changed about are found out, and the reading that was meant is given", "[dates]") {
  const Tables& minor = pack("morris-minor");
  const auto a = assess_lines(minor, R"(<number id="car-number" text="AM2S3 703821"/>)");
  REQUIRE(a.numbers.front().reading);
  CHECK(a.numbers.front().reading->slips.front().kind == NumberSlip::Kind::swapped);
  CHECK(a.numbers.front().reading->serial == 703821);
}
