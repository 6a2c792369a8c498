#include "words/english/scopes.hpp"

#include "engine/compile/axes.hpp"
#include "support.hpp"

/// The engine keeps scopes, periods and law as data; what a mechanic reads is made from them when it is asked for.
using namespace exworks;
using namespace exworks::test;

namespace {

const FactInfo& fact(const Tables& t, const std::string& feature, const std::string& name) {
  const auto& facts = t.features[t.feature_index.at(feature)].facts;
  const auto at = std::find_if(facts.begin(), facts.end(), [&](const FactInfo& f) { return f.name == name; });
  REQUIRE(at != facts.end());
  return *at;
}

Tables trial(const std::string& facts) {
  return pack_from_text(R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <source id="trade" kind="common-practice" title="common practice, no source"/>
  <place id="front" name="Front"/> <market id="home" name="Home market"/> <market id="north" name="Northland"/>
  <plant id="works" name="Works"/> <plant id="kit-a" name="Southmark" kit="yes"/>
  <generation id="one" name="Series 1"/> <generation id="two" name="Series 2"/> <body id="van" name="van"/> <body id="pick-up" name="pick-up"/>
  <variant id="v1" name="Series 1 van" generation="one" body="van" markets="*" plants="*" from="1950-01" to="1955-12" source="trade"/>
  <variant id="p1" name="Series 1 pick-up" generation="one" body="pick-up" markets="*" plants="*" from="1950-01" to="1955-12" source="trade"/>
  <variant id="v2" name="Series 2 van" generation="two" body="van" markets="*" plants="*" from="1956-01" to="1960-12" source="trade"/>
  <variant id="p2" name="Series 2 pick-up" generation="two" body="pick-up" markets="*" plants="*" from="1956-01" to="1960-12" source="trade"/>
  <number id="chassis" name="Chassis number" where="On the frame" identity="yes" source="trade"><form id="f" name="form" example="1234" source="trade"><serial digits="4"/></form></number>
  <feature id="lamp" name="Lamp" place="front"><ask>Which?</ask> <value id="a" name="a"/> <value id="b" name="b"/> <fact value="b" source="trade"/>)" + facts + "</feature></pack>");
}

}  // namespace

TEST_CASE("A scope is said by whole generations and bodies, then by market and plant", "[words]") {
  const Tables t = trial(R"(
    <fact id="all" value="a" fitted="option" share="0.1" source="trade"/> <fact id="series" value="a" fitted="option" share="0.1" generations="two" source="trade"/>
    <fact id="body" value="a" fitted="option" share="0.1" bodies="van" markets="home" source="trade"/> <fact id="one" value="a" fitted="option" share="0.1" variants="v1" plants="kit-a" source="trade"/>)");
  CHECK(scope_words(t.axes, fact(t, "lamp", "all").scope).empty());
  CHECK(scope_words(t.axes, fact(t, "lamp", "series").scope) == "Series 2");
  CHECK(scope_words(t.axes, fact(t, "lamp", "body").scope) == "van (Home market)");
  CHECK(scope_words(t.axes, fact(t, "lamp", "one").scope) == "Series 1: van (Southmark)");
}

TEST_CASE("A period names its edges, a window both of its ends, and the numbers that begin and end it", "[words]") {
  const Tables t = trial(R"(
    <fact id="open" value="a" fitted="option" share="0.1" source="trade"/> <fact id="from" value="a" fitted="option" share="0.1" from="1952-03" source="trade"/>
    <fact id="both" value="a" fitted="option" share="0.1" from="1952-03" to="[1953-01..1953-04]" source="trade"/>
    <fact id="numbered" value="a" fitted="option" share="0.1" from="1952-03" from-number="2100" to="1954-01" to-number="3000" source="trade"/>)");
  CHECK(period_words(fact(t, "lamp", "open")).empty());
  CHECK(period_words(fact(t, "lamp", "from")) == "from Mar 1952");
  CHECK(period_words(fact(t, "lamp", "both")) == "from Mar 1952 to between Jan 1953 and Apr 1953");
  CHECK(period_words(fact(t, "lamp", "numbered")) == "from Mar 1952 to Jan 1954, from number 2100, to number 3000");
}

TEST_CASE("A source is cited by title, publisher and year, and its kind is said in words", "[words]") {
  CHECK(citation(SourceInfo{"x", "Parts list", "Aldermoor", "1952", "", SourceKind::published}) == "Parts list, Aldermoor, 1952");
  CHECK(kind_words(SourceKind::common_practice) == "common practice");
  CHECK(law_words({"GB-020", "Great Britain", "direction indicators"}) == "GB-020, Great Britain: direction indicators");
}
