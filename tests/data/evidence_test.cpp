#include <algorithm>
#include <cmath>

#include "support.hpp"
#include "assess/questions/next_checks.hpp"
#include "study/trial.hpp"

/// Documents, claims, both readings, what the answer hangs on, and what to look at next, on the invented Aldermoor Carrier.
/// Where no source is named the expectation is common practice, no source.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string series_1 = R"(<observed feature="rear-lamps" value="small-glass"/><observed feature="starter" value="knob"/><observed feature="body-style" value="van"/>
  <observed feature="steering-side" value="right"/><observed feature="speedometer" value="miles"/>)";

Judged assess_van(const std::string& lines) { return assess_lines(pack("aldermoor-carrier"), series_1 + lines); }

int months(const Assessment& a) { return a.date.to - a.date.from + 1; }

NextChecks next_for(const std::string& lines, Aim aim, std::optional<double> minutes) {
  Diagnostics d;
  const NextChecks next = next_checks(pack("aldermoor-carrier"), inspection_from_text("<inspection format=\"1\" date=\"2026-11-20\">" + lines + "</inspection>"), aim, minutes, 50, d);
  INFO(messages(d));
  REQUIRE_FALSE(d.has_errors());
  return next;
}

}  // namespace

TEST_CASE("The maker's archive letter dates the build; a vehicle is registered after it was built, not before", "[documents]") {
  const int before = months(assess_van(""));
  const auto letter = assess_van(R"(<document kind="letter" built="1953-06"/>)");
  CHECK(months(letter) < before / 4);
  CHECK(letter.date.from >= Month::of(1953, 5));
  CHECK(letter.date.to <= Month::of(1953, 7));
  const auto registered = assess_van(R"(<document kind="registration" date="1953-06"/>)");
  CHECK(registered.date.to <= Month::of(1953, 6));
  CHECK(registered.date.most_likely <= Month::of(1953, 6));
}

TEST_CASE("A seller's year is weak, and may be a model year that began the autumn before", "[documents]") {
  const auto none = assess_van("");
  const auto claimed = assess_van(R"(<claimed by="seller" built="1952"/>)");
  const auto recorded = assess_van(R"(<document kind="build-record" built="1952-06"/>)");
  const auto share_of_1952 = [](const Assessment& a) {
    double sum = 0;
    for (int i = 0; i < 12; ++i) sum += a.month_odds[static_cast<std::size_t>(Month::of(1952, 1) - a.first_month + i)];
    return sum;
  };
  CHECK(share_of_1952(claimed) > share_of_1952(none));
  CHECK(share_of_1952(recorded) > share_of_1952(claimed));
  CHECK(share_of_1952(claimed) < 0.9);  // a claim alone settles nothing
  const std::size_t autumn = static_cast<std::size_t>(Month::of(1951, 10) - claimed.first_month);
  CHECK(claimed.month_odds[autumn] > none.month_odds[autumn]);
}

TEST_CASE("A claim beside a registration is not counted twice", "[documents]") {
  const std::string paper = R"(<document kind="registration" date="1953-06"/>)";
  const auto one = assess_van(paper), both = assess_van(paper + R"(<claimed by="seller" built="1953"/>)");
  CHECK(one.month_odds == both.month_odds);
}

TEST_CASE("A number that contradicts the rest gets both readings, and a claim a reading of its own", "[readings]") {
  const auto a = assess_van(R"(<observed feature="windscreen" value="two-panes"/><observed feature="grille" value="nine-bars"/>
    <number id="chassis-number" text="AC3V 140000"/><claimed by="seller" built="1966" generation="s3"/>)");
  REQUIRE(a.readings.size() == 3);
  CHECK(a.readings[0].condition == Condition::own_number);
  CHECK(a.readings[1].condition == Condition::other_number);
  CHECK(a.readings[2].condition == Condition::claim);
  CHECK(a.readings[0].p + a.readings[1].p == Approx(1));
  const auto later = [](const Reading& r) {
    return std::count_if(r.features.begin(), r.features.end(), [](const ReadingLine& f) { return f.verdict == VerdictKind::later_change; });
  };
  CHECK(later(a.readings[0]) >= 1);  // taken as the numbered Series 3, what is of Series 1 is later or doubtful
  CHECK(later(a.readings[1]) == 0);  // taken as what it looks like, nothing is
  CHECK(later(a.readings[2]) >= 1);
  CHECK(assess_van(R"(<number id="chassis-number" text="AC V 12050"/>)").readings.empty());
}

TEST_CASE("Conditioned on a claim, no odds are left outside it", "[readings]") {
  const Tables& t = pack("aldermoor-carrier");
  Given given;
  std::string why;
  given.built = parse_edge("1954", &why);
  const auto a = assess_lines(t, series_1, {}, given);
  for (std::size_t i = 0; i < a.month_odds.size(); ++i) {
    if ((a.first_month + static_cast<int>(i)).year() != 1954) CHECK(a.month_odds[i] == 0);
  }
}

TEST_CASE("The one telling observation is named as the hinge: without it the answer falls", "[hinges]") {
  // Only the rear lamps tell Series 1 from Series 2 here.
  const Tables& t = pack("aldermoor-carrier");
  const std::string shared = R"(<observed feature="windscreen" value="two-panes"/><observed feature="grille" value="nine-bars"/><observed feature="body-style" value="van"/>)";
  const auto a = assess_lines(t, shared + R"(<observed feature="rear-lamps" value="small-glass"/>)");
  const auto without = assess_lines(t, shared);
  REQUIRE(a.variants.front().index != without.variants.front().index);
  REQUIRE(a.hinges_on.size() == 1);
  CHECK(t.features[a.hinges_on.front()].id == "rear-lamps");
}

TEST_CASE("What is left out is reweighed exactly as if it had not been seen", "[hinges]") {
  const std::string gearbox = R"(<observed feature="synchromesh" value="all"/><observed feature="gearbox-casing" value="smooth-long"/>)";
  const auto a = assess_van(gearbox + R"(<observed feature="gear-lever" value="short"/>)");
  // Whether a verdict is said to hang on the lever must be what an assessment without the lever says.
  const auto without = assess_van(gearbox);
  const std::size_t lever = a.tables->feature_index.at("gear-lever");
  for (const FeatureVerdict& f : a.features) {
    if (f.finding.feature == lever || f.verdict == VerdictKind::uncertain) continue;
    const std::string& id = a.tables->features[f.finding.feature].id;
    const bool falls = feature(without, id).verdict != f.verdict;
    const bool named = std::find(f.hinges_on.begin(), f.hinges_on.end(), lever) != f.hinges_on.end();
    INFO(id);
    if (f.hinges_on.size() < 2) CHECK(falls == named);
  }
}

TEST_CASE("What to look at next: the telling features of look-alikes come before the shared ones", "[next]") {
  const NextChecks next = next_for(R"(<observed feature="windscreen" value="two-panes"/><observed feature="body-style" value="van"/>)", Aim::build, std::nullopt);
  const Tables& t = pack("aldermoor-carrier");
  const auto rank = [&](const std::string& id) {
    const auto at = std::find_if(next.checks.begin(), next.checks.end(), [&](const Check& c) { return t.features[c.feature].id == id; });
    return at - next.checks.begin();
  };
  CHECK(rank("rear-lamps") < rank("grille"));   // nine bars and two panes both mean Series 1 or 2
  CHECK(rank("starter") < rank("grille"));
  for (const Check& c : next.checks) {
    CHECK(c.bits_per_minute == Approx((c.build_bits) / c.minutes));
    double sum = 0;
    for (const Outcome& o : c.outcomes) sum += o.p;
    CHECK(sum <= 1 + 1e-9);
  }
}

TEST_CASE("A plan fits its time and stands where the walk-round stands", "[next]") {
  const NextChecks plan = next_for(R"(<observed feature="body-style" value="van"/>)", Aim::both, 6.0);
  const Tables& t = pack("aldermoor-carrier");
  CHECK(plan.minutes <= 6.0 + 1e-9);
  REQUIRE(plan.checks.size() > 3);
  for (std::size_t i = 1; i < plan.checks.size(); ++i) CHECK(t.features[plan.checks[i - 1].feature].place <= t.features[plan.checks[i].feature].place);
}

TEST_CASE("Nothing more is worth looking at when everything was looked at", "[next]") {
  std::string all;
  for (const FeatureInfo& f : pack("aldermoor-carrier").features) {
    if (!f.of_number) all += "<observed feature=\"" + f.id + "\" state=\"cannot-tell\"/>";
  }
  const NextChecks next = next_for(all, Aim::both, std::nullopt);
  CHECK(next.checks.empty());
  CHECK(next.nothing_left);
}

// The right world is the model itself, so by the definition of probability each tenth comes true as often as it says, within
// five standard errors of a share (at most 0.5 / sqrt(n)).
TEST_CASE("In a world as the pack believes, the stated odds come true", "[trial][slow]") {
  const TrialResult r = run_world(pack("aldermoor-carrier"), right_world, 1500, 7, -1, 2);
  CHECK(r.date_set_coverage > 0.87);
  CHECK(r.date_set_coverage < 0.93);
  for (const ReliabilityRow& row : r.reliability) {
    if (row.n >= 100) CHECK(std::abs(row.stated - row.came_true) < 5 * 0.5 / std::sqrt(static_cast<double>(row.n)));
  }
  const TrialResult again = run_world(pack("aldermoor-carrier"), right_world, 200, 7, -1, 1);
  const TrialResult threads = run_world(pack("aldermoor-carrier"), right_world, 200, 7, -1, 2);
  CHECK(again.brier == threads.brier);  // same seed, same figures, however many threads
}
