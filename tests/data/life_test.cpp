#include "assess/summary.hpp"
#include "support.hpp"

/// What a life does to a vehicle, on real families: a foreign engine, lamps of a late car. The figures wanted are the trade's: common
/// practice, no source.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string roadster = R"(<vehicle name="MGB" country="GB"/><observed feature="screen-height" value="low"/><observed feature="steering-side" value="right"/>
  <observed feature="bumpers" value="chrome"/><observed feature="grille" value="separate-slats"/><observed feature="hood" value="folding-grey"/>)";

double market_odds(const Tables& tables, const Assessment& a, const std::string& id) {
  for (const Odds& o : a.markets) {
    if (tables.axes.markets[o.index].id == id) return o.p;
  }
  return 0;
}

}  // namespace

TEST_CASE("A V8 in a four-cylinder roadster is a later change, and beyond doubt once its number was looked for", "[life]") {
  const std::string v8 = R"(<observed feature="engine" value="v8"/>)";
  // One look in two thousand is written on the wrong line; about one such car in forty has a V8: a fiftieth is left for the pen.
  const auto a = assess_lines(pack("mgb"), roadster + v8);
  CHECK(feature(a, "engine").finding.p_type < 0.03);
  CHECK(feature(a, "engine").verdict == VerdictKind::later_change);
  const auto b = assess_lines(pack("mgb"), roadster + v8 + R"(<observed feature="engine-prefix" value="other"/>)");
  CHECK(feature(b, "engine").finding.p_type < 0.01);
}

TEST_CASE("An engine that the pack has never heard of is a later change, and no slip of the eye", "[life]") {
  const auto a = assess_lines(pack("mgb"), roadster + R"(<observed feature="engine" value="other"/>)");
  CHECK(feature(a, "engine").verdict == VerdictKind::later_change);
}

TEST_CASE("A look that says only what it is not weighs less than one that names it", "[life]") {
  const auto some = assess_lines(pack("mgb"), roadster + R"(<observed feature="engine" value="not-four"/>)");
  const auto v8 = assess_lines(pack("mgb"), roadster + R"(<observed feature="engine" value="v8"/>)");
  // Six cylinders are right for an MGC, which the look leaves open.
  CHECK(feature(some, "engine").finding.p_type > feature(v8, "engine").finding.p_type);
  CHECK(feature(some, "engine").finding.there[2] < feature(v8, "engine").finding.there[2]);
}

TEST_CASE("A vehicle that stands in Australia was more likely sold there", "[life]") {
  const auto& t = pack("mgb");
  const auto nowhere = assess_lines(t, R"(<observed feature="screen-height" value="low"/>)");
  const auto there = assess_lines(t, R"(<vehicle name="MGB" country="AU"/><observed feature="screen-height" value="low"/>)");
  CHECK(market_odds(t, there, "australia") > 0.5);
  CHECK(market_odds(t, there, "australia") > 3 * market_odds(t, nowhere, "australia"));
}

TEST_CASE("One part that was changed makes the next easier to doubt", "[life]") {
  const auto plain = assess_lines(pack("mgb"), roadster + R"(<observed feature="engine" value="four"/>)");
  const auto swapped = assess_lines(pack("mgb"), roadster + R"(<observed feature="engine" value="v8"/>)");
  CHECK(feature(swapped, "grille").finding.p_type < feature(plain, "grille").finding.p_type);
  CHECK(feature(swapped, "grille").verdict == VerdictKind::original);
}

TEST_CASE("Amber lamps, which every late Minor had, say little of the market", "[life]") {
  // Home and other markets got them in the same years; the pack speaks of the home cars only.
  const Tables& minor = pack("morris-minor");
  const auto a = assess_lines(minor, R"(<observed feature="rear-lamps" value="amber"/><observed feature="flashers" value="amber"/><observed feature="sidelamps" value="large-amber"/>)");
  CHECK(market_odds(minor, a, "home") < 0.75);
}

TEST_CASE("The cut bar of an engine swap stands with the swap: one change with its signs, its hours counted once", "[life]") {
  // Minor History, MMOC Northern Ireland (mmoc-ni.co.uk/morris-minor-history): the bar between the dampers had to give way to the later engine.
  const Tables& minor = pack("morris-minor");
  const auto a = assess_lines(minor, R"(<observed feature="headlamp-position" value="low"/><observed feature="windscreen" value="split"/><observed feature="engine" value="cc-1098"/>
    <observed feature="gear-lever" value="remote"/><observed feature="damper-stiffener" value="cut"/>)");
  const std::vector<ChangeGroup> groups = change_groups(minor, a);
  REQUIRE(groups.size() == 1);
  CHECK(groups.front().size() == 3);
  const NamedChange* change = named_change(minor, a.features[groups.front().front()]);
  REQUIRE(change != nullptr);
  CHECK(change->id == "engine-ohv-1098-in-mm");
  CHECK(hours_to_go_back(a, groups).hours == Approx(change->hours));
}
