#include "support.hpp"
#include "words/numbers.hpp"
#include "words/reasons.hpp"

/// Facts of the trade as checks, on the invented Aldermoor Carrier. *Common practice, no source*: each is what a mechanic
/// would say of such a vehicle, whatever the program's arithmetic.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string plain_series_1 = R"(
  <observed feature="windscreen" value="two-panes"/> <observed feature="rear-lamps" value="small-glass"/>
  <observed feature="starter" value="knob"/> <observed feature="door-handles" value="pull"/> <observed feature="body-style" value="van"/>)";

const std::string home = R"(<observed feature="steering-side" value="right"/> <observed feature="speedometer" value="miles"/>)";
const std::string northland = R"(<observed feature="steering-side" value="left"/> <observed feature="speedometer" value="kilometres"/>)";

Judged van(const std::string& lines) { return assess_lines(pack("aldermoor-carrier"), plain_series_1 + lines); }

}  // namespace

TEST_CASE("A hard top and a soft top that bolt on and off say little about originality by themselves", "[trade]") {
  for (const char* top : {"hard-top", "soft-hood"}) {
    const auto a = assess_lines(pack("aldermoor-carrier"), home + R"(<observed feature="body-style" value="estate"/><observed feature="windscreen" value="one-pane"/>
      <observed feature="top" value=")" + std::string(top) + "\"/>");
    const FeatureVerdict& f = feature(a, "top");
    INFO(top << ": P " << f.finding.p_type << ", ratio " << f.finding.likelihood_ratio);
    CHECK(f.verdict == VerdictKind::uncertain);
    CHECK(f.finding.likelihood_ratio < 10);
    CHECK(f.finding.likelihood_ratio > 0.1);
    CHECK(reason(a, "top").find("says little about originality") != std::string::npos);
  }
}

TEST_CASE("Lamps in the later place are right on a vehicle sold new where law asked for them early", "[trade]") {
  const std::string high = R"(<observed feature="headlamp-position" value="high"/><number id="chassis-number" text="AC V 21000)";
  CHECK(feature(van(northland + high + " L\"/>"), "headlamp-position").verdict == VerdictKind::original);
  const auto at_home = van(home + high + "\"/>");
  CHECK(feature(at_home, "headlamp-position").verdict == VerdictKind::later_change);
  CHECK(reason(at_home, "headlamp-position").find("low, beside the grille") != std::string::npos);
}

TEST_CASE("Uneven panel fit on hand-fitted bodies is no sign of a replaced panel", "[trade]") {
  const FeatureVerdict f = feature(van(home + R"(<observed feature="panel-gaps" value="uneven"/>)"), "panel-gaps");
  CHECK(f.verdict == VerdictKind::original);
}

TEST_CASE("A locally made wheel rim is original on a kit-assembled vehicle and not on a home-market one", "[trade]") {
  const std::string rims = R"(<observed feature="wheel-rims" value="six-holes" mark="maker"/>)";
  const auto kit = assess_lines(pack("aldermoor-carrier"), R"(<number id="chassis-number" text="AC2V 45000 K"/><observed feature="rear-lamps" value="large-round"/>
    <observed feature="steering-side" value="right"/>)" + rims);
  CHECK(feature(kit, "wheel-rims").verdict == VerdictKind::original);
  const auto at_home = assess_lines(pack("aldermoor-carrier"), R"(<number id="chassis-number" text="AC2V 45000 L"/><observed feature="rear-lamps" value="large-round"/>
    <observed feature="steering-side" value="left"/>)" + rims);
  CHECK(feature(at_home, "wheel-rims").verdict == VerdictKind::later_change);
}

TEST_CASE("An all-synchromesh gearbox in a generation that had none on first and second is a later change with donor dates", "[trade]") {
  const auto a = van(home + R"(<number id="chassis-number" text="AC V 21000"/><observed feature="synchromesh" value="all"/> <observed feature="gearbox-casing" value="smooth"/>
    <observed feature="gear-lever" value="long"/>)");
  const FeatureVerdict& f = feature(a, "synchromesh");
  CHECK(f.verdict == VerdictKind::later_change);
  REQUIRE(f.donor() != nullptr);
  // The parts list (invented) gives the smooth casing with a long lever to Series 2 alone: July 1955 to February 1961.
  CHECK(f.donor()->from >= Month::of(1955, 7));
  CHECK(f.donor()->to <= Month::of(1961, 2));
  CHECK(f.reversible == Reversible::yes);
}

TEST_CASE("Two generations that look alike stay undecided until a telling feature is seen", "[trade]") {
  const Tables& t = pack("aldermoor-carrier");
  const std::string shared = home + R"(<observed feature="windscreen" value="two-panes"/> <observed feature="grille" value="nine-bars"/>
    <observed feature="door-handles" value="pull"/> <observed feature="body-style" value="van"/> <observed feature="load-floor" value="slats"/>)";
  const auto before = assess_lines(t, shared);
  CHECK(generation_odds(t, before, "s1") < 0.9);
  CHECK(generation_odds(t, before, "s2") < 0.9);
  CHECK(generation_odds(t, before, "s3") < 0.01);
  const auto after = assess_lines(t, shared + R"(<observed feature="rear-lamps" value="small-glass"/> <observed feature="starter" value="knob"/>)");
  CHECK(generation_odds(t, after, "s1") > 0.9);
}

TEST_CASE("Patina is evidence of the part, not a fault: wear like the rest supports it, fresh paint does not", "[trade]") {
  const auto p_part = [](const char* wear) { return feature(van(home + "<observed feature=\"grille\" value=\"nine-bars\" wear=\"" + wear + "\"/>"), "grille").part.p; };
  CHECK(p_part("consistent") > p_part("fresher"));
  const FeatureVerdict plain = feature(van(home + "<observed feature=\"grille\" value=\"nine-bars\"/>"), "grille");
  CHECK(part_words(plain) == "right type; not shown to be the part fitted when new");
  CHECK(plain.verdict == VerdictKind::original);
}

TEST_CASE("A number that disagrees with the vehicle is reported without an accusation", "[trade]") {
  const auto a = van(home + R"(<observed feature="gearbox-casing" value="ribbed"/><observed feature="grille" value="nine-bars"/><number id="chassis-number" text="AC3V 140000"/>)");
  const NumberVerdict& n = number(a, "chassis-number");
  CHECK(n.agrees == Agreement::no);
  const std::string note = number_note(*a.tables, n);
  CHECK(note.find("not consistent with the rest") != std::string::npos);
  for (const char* word : {"fake", "stolen", "fraud", "ringer", "forged"}) CHECK(note.find(word) == std::string::npos);
}

TEST_CASE("An inspection with no observation returns the prior and says so", "[trade]") {
  const Tables& t = pack("aldermoor-carrier");
  const auto a = assess_lines(t, "");
  double sum = 0;
  for (const RouteInfo& r : t.routes) {
    if (t.axes.generations[t.axes.variants[r.variant].generation].id != "s1") continue;
    for (std::size_t i = 0; i < r.builds(); ++i) sum += t.prior[r.first_build + i];
  }
  CHECK(generation_odds(t, a, "s1") == Approx(sum).epsilon(1e-12));
  REQUIRE_FALSE(a.remarks.empty());
  CHECK(a.remarks.front().kind == RemarkKind::nothing_observed);
  CHECK(a.score.coverage == 0);
}

TEST_CASE("Contradictory observations return a low fit and say so", "[trade]") {
  // Half of the vehicle is of Series 1, half of Series 3, in parts that nobody swaps one by one.
  const auto a = van(R"(<observed feature="grille" value="mesh"/> <observed feature="instruments" value="driver"/> <observed feature="rear-doors" value="one-door"/>
    <observed feature="load-floor" value="steel"/> <observed feature="gear-lever" value="short"/> <observed feature="bonnet-badge" value="script"/>)");
  CHECK(a.fit.p < 0.01);
  CHECK(a.fit.kind == FitKind::contradictory);
  const auto good = van(home + R"(<observed feature="grille" value="nine-bars"/> <observed feature="instruments" value="middle"/>)");
  CHECK(good.fit.p > 0.05);
}
