#include "support.hpp"

/// What a pack says of a month, worked out by hand from rules/FORMAT.md ("Features, values, facts"): the shares of a ramp
/// and of facts side by side, and how a variant's units are spread.
using namespace exworks;
using namespace exworks::test;

namespace {

std::string pack_of(const std::string& lines) {
  return R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <rates edge-months="0 0 0 0" wrong-year="0" offset-shares="1"/>
  <source id="trade" kind="common-practice" title="common practice, no source"/>
  <place id="front" name="Front"/> <market id="home" name="Home"/> <generation id="g" name="G"/> <body id="van" name="van"/>)" +
         lines + "</pack>";
}

const std::string one_plant = R"(<plant id="works" name="Works"/>
  <variant id="a" name="A" generation="g" body="van" markets="*" plants="*" from="1950-01" to="1950-12" source="trade"/>)";

std::string feature_of(const std::string& facts) {
  return R"(<feature id="lamp" name="Lamp" place="front" weight="1" minutes="1"><ask>Which?</ask>
    <value id="a" name="a">A</value> <value id="b" name="b">B</value> <value id="c" name="c">C</value>)" + facts + "</feature>";
}

/// Shares of the first feature in a month of the only route; [0] is January.
std::vector<double> shares(const Tables& t, std::size_t month) {
  const FeatureInfo& f = t.features.front();
  return f.columns[f.column_of[t.cell_of[t.routes.front().first_build + month]]].share;
}

}  // namespace

TEST_CASE("A plain fact that fades out beside shared ones falls along its ramp, without a jump at its end", "[packs]") {
  // b and c have 0.3 each all year; a has the rest, 0.4, and was given up somewhere in May to August.
  const Tables t = pack_from_text(pack_of(one_plant + feature_of(R"(
    <fact value="a" to="[1950-05..1950-08]" source="trade"/>
    <fact value="b" share="0.3" source="trade"/> <fact value="c" share="0.3" source="trade"/>)")));
  CHECK(shares(t, 0)[0] == Approx(0.4));   // fitted all through January: the rest
  CHECK(shares(t, 6)[0] == Approx(0.375)); // July: in force with odds of 1 - 2.5/4
  CHECK(shares(t, 7)[0] == Approx(0.125)); // August: 1 - 3.5/4
  CHECK(shares(t, 8)[0] == 0);             // gone
  CHECK(shares(t, 8)[1] == Approx(0.5));   // what is over goes to b and c in proportion
  for (std::size_t m = 0; m < 12; ++m) {
    CHECK(shares(t, m)[0] + shares(t, m)[1] + shares(t, m)[2] == Approx(1));
    CHECK(shares(t, m)[1] == Approx(shares(t, m)[2]));
  }
}

TEST_CASE("Shared facts that replace a plain one take over exactly as it goes", "[packs]") {
  const Tables t = pack_from_text(pack_of(one_plant + feature_of(R"(
    <fact value="a" to="[1950-05..1950-08]" source="trade"/>
    <fact value="b" share="0.6" from="[1950-05..1950-08]" source="trade"/>
    <fact value="c" share="0.4" from="[1950-05..1950-08]" source="trade"/>)")));
  CHECK(shares(t, 4)[0] == Approx(1 - 0.125));
  CHECK(shares(t, 4)[1] == Approx(0.6 * 0.125));
  CHECK(shares(t, 7)[2] == Approx(0.4 * 0.875));
}

TEST_CASE("A variant's units fall on the months in which a plant built it", "[packs]") {
  // A: 600 in the eight months that its plant worked; B: 400 in twelve.
  const Tables t = pack_from_text(pack_of(R"(
    <plant id="first" name="First" from="1950-05" to="1950-12"/> <plant id="second" name="Second"/>
    <variant id="a" name="A" generation="g" body="van" markets="*" plants="first" from="1950-01" to="1950-12" units="600" source="trade"/>
    <variant id="b" name="B" generation="g" body="van" markets="*" plants="second" from="1950-01" to="1950-12" units="400" source="trade"/>)" +
    feature_of(R"(<fact value="a" variants="a" source="trade"/> <fact value="b" variants="b" source="trade"/> <later id="x" value="c" name="c" source="trade">C</later>)")));
  double a = 0;
  for (const RouteInfo& route : t.routes) {
    for (std::size_t i = 0; i < route.builds(); ++i) a += t.axes.variants[route.variant].id == "a" ? t.prior[route.first_build + i] : 0;
  }
  CHECK(a == Approx(0.6));
}

TEST_CASE("A claim that names several variants has the odds of all of them", "[readings]") {
  const Assessment a = assess_lines(pack("aldermoor-carrier"), R"(<claimed by="seller" generation="*"/><observed feature="rear-lamps" value="small-glass"/>)");
  REQUIRE(a.claims.size() == 1);
  CHECK(a.claims.front().p == Approx(1));
}
