#pragma once
#include <string>
#include <vector>

#include "support.hpp"

/// A small pack without a fault, and one author's mistake at a time put into it.
namespace exworks::test {

/// Its first line is line 1 of trial/pack.xml. Nothing at all is reported of this text as it stands.
inline const std::string faultless = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
<source id="BOOK" kind="published" title="Parts list" publisher="Works" year="1957"/>
<place id="front" name="Front"/>
<caution id="jack" name="Jacking" source="BOOK">Never under it.</caution>
<term word="wing" en-US="fender"/>
<rates altered="0.05"/>
<market id="home" name="Home"/>
<market id="abroad" name="Abroad" share="2"/>
<plant id="works" name="Works" markets="*"/>
<generation id="one" name="Series 1"/>
<generation id="two" name="Series 2"/>
<body id="van" name="van"/>
<variant id="one-van" name="Series 1 van" generation="one" body="van" plants="works" from="1951-01" to="1954-12" source="BOOK"/>
<variant id="two-van" name="Series 2 van" generation="two" body="van" plants="works" from="1955-01" to="1958-12" source="BOOK"/>
<volume generations="one" from="1951-01" to="1951-12" units="900" source="BOOK"/>
<assembly id="gearbox" name="Gearbox">
  <interchange variants="*" donors="*" source="BOOK"/>
</assembly>
<feature id="lamps" name="Lamps" place="front" weight="5" caution="jack">
  <value id="low" name="low"/>
  <value id="high" name="high"/>
  <fact value="low" to="1953-01" source="BOOK"/>
  <fact value="high" from="1953-01" source="BOOK"/>
</feature>
<feature id="casing" name="Casing" place="front" assembly="gearbox" unit="mm">
  <value id="ribbed" name="ribbed" measure="100" tolerance="2"/>
  <value id="smooth" name="smooth" measure="120" tolerance="3"/>
  <fact value="ribbed" generations="one" source="BOOK"/>
  <fact value="smooth" generations="two" source="BOOK"/>
  <later id="new-box" value="smooth" name="later box" source="BOOK">Smooth.</later>
</feature>
<later id="other-box" assembly="gearbox" name="box of another make" share="0.1" source="BOOK">
  <sets feature="casing" value="other"/>
</later>
<number id="chassis" name="Chassis number" identity="yes" where="Plate" source="BOOK">
  <form id="usual" name="Usual form" example="V 1234" source="BOOK">
    <part id="body" name="Body letter"><code text="V" means="van"/><code text="P" means="pick-up"/></part>
    <serial digits="1-6"/>
  </form>
  <range first="1" last="999" from="1951-01" to="1954-12" generations="one" source="BOOK"/>
  <range first="1000" last="2000" from="1955-01" to="1958-12" generations="two" source="BOOK"/>
</number>
</pack>
)";

/// What was written in place of what, and the whole of what the author is told: where, what is wrong, what to do.
struct Mistake {
  const char* kind;
  const char* was;
  const char* is;
  const char* told;
};

inline std::string with_edit(std::string text, const std::string& was, const std::string& is) {
  const std::size_t at = text.find(was);
  INFO("'" << was << "'");
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(was, at + 1) == std::string::npos);
  return text.replace(at, was.size(), is);
}

/// One cause, one message, at the place of the word or element at fault, and nothing else is told.
inline void check_mistakes(const std::vector<Mistake>& mistakes) {
  for (const Mistake& m : mistakes) {
    INFO(m.kind);
    CHECK(messages(check_text(with_edit(faultless, m.was, m.is))) == m.told + std::string("\n"));
  }
}

}  // namespace exworks::test
