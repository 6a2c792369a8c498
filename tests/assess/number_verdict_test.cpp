#include "support.hpp"
#include "words/numbers.hpp"
#include "words/remarks.hpp"

/// Which observations a number made is known by the number itself, not by how it is written.
using namespace exworks;
using namespace exworks::test;

namespace {

/// Two numbers of one name, as on an engine that is numbered twice: the stamp tells the bore, the casting the kind of block.
const char* const twice_numbered = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <source id="trade" kind="common-practice" title="common practice, no source"/>
  <place id="front" name="Front"/> <market id="home" name="Home"/> <plant id="works" name="Works"/>
  <generation id="g" name="G"/> <body id="van" name="van"/>
  <variant id="a" name="A" generation="g" body="van" markets="*" plants="*" from="1950-01" to="1950-12" source="trade"/>
  <assembly id="engine" name="engine"/>
  <feature id="bore" name="Bore" place="front" assembly="engine"><ask>Which?</ask>
    <value id="small" name="small"/> <value id="big" name="big"/> <fact value="small" source="trade"/>
    <later id="bored" value="big" name="bored out" share="1" hours="30" source="trade">Measure the bore.</later></feature>
  <feature id="block" name="Block" place="front" altered="0.2"><ask>Which?</ask>
    <value id="plain" name="plain"/> <value id="ribbed" name="ribbed"/> <fact value="plain" source="trade"/>
    <later id="later-block" value="ribbed" name="a later block" share="1" hours="30" source="trade">Ribs along its side.</later></feature>
  <number id="stamp" name="Engine number" where="On the block" assembly="engine" source="trade"><form id="s" name="stamp" example="S123" source="trade">
    <part id="bore" name="Bore"><code text="S" means="small" feature="bore" value="small"/><code text="B" means="big" feature="bore" value="big"/></part>
    <serial digits="3-4"/></form></number>
  <number id="casting" name="Engine number" where="On the head" source="trade"><form id="c" name="casting" example="S123" source="trade">
    <part id="block" name="Block"><code text="S" means="ribbed" feature="block" value="ribbed"/><code text="P" means="plain" feature="block" value="plain"/></part>
    <serial digits="3-4"/></form></number>
</pack>)";

}  // namespace

TEST_CASE("Engine number S123 is not judged by what engine number S1234 says", "[numbers]") {
  const Tables t = pack_from_text(twice_numbered);
  const Judged a = assess_lines(t, R"(<number id="stamp" text="S123"/> <number id="casting" text="S1234"/>)");
  CHECK(number(a, "casting").agrees == Agreement::no);  // a ribbed block on a vehicle that had plain ones
  CHECK(number(a, "stamp").agrees == Agreement::yes);   // the bore is right, and the stamp says nothing of the block
  CHECK(noted_words({t, a.inspection, a}, feature(a, "bore")) == "from Engine number S123");
  CHECK(noted_words({t, a.inspection, a}, feature(a, "block")) == "from Engine number S1234");
}

TEST_CASE("A number that no form reads says where reading failed", "[numbers]") {
  const Tables t = pack_from_text(twice_numbered);
  const Judged a = assess_lines(t, R"(<number id="stamp" text="X"/>)");
  CHECK(number_note(t, number(a, "stamp")).starts_with("no form of Engine number reads 'X': read as stamp, at 'X' it wants "));
}
