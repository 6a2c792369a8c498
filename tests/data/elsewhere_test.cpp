#include <algorithm>

#include "engine/evidence/given.hpp"
#include "support.hpp"

/// A plain answer about equipment that only some vehicles have must not turn the vehicle into one of them. *Common practice, no
/// source*: a mechanic answers 'none' where there is none, on whatever vehicle.
using namespace exworks;
using namespace exworks::test;

namespace {

double market_odds(const std::string& family, const Assessment& a, const std::string& id) {
  const auto at = std::find_if(a.markets.begin(), a.markets.end(), [&](const Odds& o) { return pack(family).axes.markets[o.index].id == id; });
  return at == a.markets.end() ? 0 : at->p;
}

}  // namespace

TEST_CASE("No reflectors on the wings of an oval-window Beetle say nothing of the market: none were asked for anywhere in its time", "[trade]") {
  // Standard 108 asked narrow vehicles for them from January 1969 (NHTSA chief counsel, letter to Minnesota Mining, 1979: nhtsa.gov/interpretations/aiam3034).
  const std::string oval = R"(<observed feature="rear-window" value="oval"/>)";
  const Tables& beetle = pack("volkswagen-type1");
  const auto before = assess_lines(beetle, oval), after = assess_lines(beetle, oval + R"(<observed feature="side-markers" value="none"/>)");
  for (const char* market : {"usa", "germany", "uk"}) CHECK(market_odds("volkswagen-type1", after, market) == Approx(market_odds("volkswagen-type1", before, market)).margin(0.01));
  CHECK(feature(after, "side-markers").verdict == VerdictKind::original);
  Diagnostics wrong;
  const auto german = assess_lines(beetle, oval + R"(<observed feature="side-markers" value="none"/>)", {}, parse_given(beetle, {"market=germany"}, {}, wrong));
  CHECK(reason(german, "side-markers") == "Such vehicles left the works without it.");
}

TEST_CASE("American lamps at the sides still speak for an American car, and on a German one they are not of the works", "[trade]") {
  const std::string late = R"(<observed feature="rear-window" value="rectangular-1971"/><observed feature="side-markers" value="fitted"/>)";
  const Tables& beetle = pack("volkswagen-type1");
  // Not more: lamps are changed, and American ones were fitted elsewhere for looks (common practice, no source).
  CHECK(market_odds("volkswagen-type1", assess_lines(beetle, late), "usa") > 0.75);
  Diagnostics wrong;
  const Given german = parse_given(beetle, {"market=germany"}, {}, wrong);
  REQUIRE_FALSE(wrong.has_errors());
  const auto sold_in_germany = assess_lines(beetle, late, {}, german);
  const FeatureVerdict& lamps = feature(sold_in_germany, "side-markers");
  CHECK(lamps.verdict == VerdictKind::later_change);
  CHECK(reason(sold_in_germany, "side-markers").find("which had 'none' when new") != std::string::npos);
}

TEST_CASE("A high-bonnet jeep without farm equipment and with two seats stays one", "[trade]") {
  const Tables& jeep = pack("willys-4x4");
  const auto a = assess_lines(jeep, R"(<observed feature="grille" value="seven-high"/><observed feature="brush-guard" value="none"/><observed feature="fire-equipment" value="none"/>
    <observed feature="hydraulic-lift" value="none"/><observed feature="belt-pulley" value="none"/><observed feature="governor" value="none"/><observed feature="passenger-seat" value="fitted"/>)");
  CHECK(generation_odds(jeep, a, "high-bonnet") > 0.9);
  CHECK(feature(a, "hydraulic-lift").verdict == VerdictKind::original);
  CHECK(reason(a, "passenger-seat").find("The pack is silent") != std::string::npos);
}

TEST_CASE("What the source tells of one model only does not make others into it: a wartime jeep with its light switch on the dash", "[trade]") {
  const Tables& jeep = pack("willys-4x4");
  const auto a = assess_lines(jeep, R"(<observed feature="grille" value="nine-slot"/><observed feature="light-switch" value="dash"/><observed feature="handbrake" value="left-under-dash"/>
    <observed feature="windscreen-paint" value="body"/>)");
  CHECK(generation_odds(jeep, a, "wartime") > 0.85);
}
