#include "support.hpp"
#include "words/numbers.hpp"

/// What is wrong with an inspection, told to the inspector: the place in the file, what is wrong, what to do. The lines stand
/// below a first line of their own, so that each is line 2; columns are counted in the line, from 1.
using namespace exworks;
using namespace exworks::test;

namespace {

const Tables& trial() {
  static const Tables tables = pack_from_text(R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
<source id="BOOK" kind="published" title="Parts list" publisher="Works" year="1957"/> <place id="front" name="Front"/>
<market id="home" name="Home"/> <market id="abroad" name="Abroad"/> <plant id="works" name="Works"/>
<generation id="one" name="Series 1"/> <generation id="two" name="Series 2"/> <body id="van" name="van"/>
<variant id="one-van" name="Series 1 van" generation="one" body="van" from="1951-01" to="1954-12" source="BOOK"/>
<variant id="two-van" name="Series 2 van" generation="two" body="van" from="1955-01" to="1958-12" source="BOOK"/>
<feature id="headlamps" name="Headlamps" place="front">
  <value id="low" name="low"/> <value id="high" name="high"/>
  <fact value="low" generations="one" source="BOOK"/> <fact value="high" generations="two" source="BOOK"/>
</feature>
<feature id="bore" name="Bore" place="front" unit="mm">
  <value id="narrow" name="narrow" measure="57" tolerance="1"/> <value id="wide" name="wide" measure="63.5" tolerance="1"/>
  <fact value="narrow" generations="one" source="BOOK"/> <fact value="wide" generations="two" source="BOOK"/>
</feature>
<number id="chassis-number" name="Chassis number" identity="yes" where="Plate" source="BOOK">
  <form id="usual" name="Usual form" source="BOOK"><serial digits="4"/></form>
</number>
</pack>)");
  return tables;
}

/// All that is told of an inspection, by its reader and, when that passes it, by the pack.
std::string told_of(const std::string& text) {
  Diagnostics d;
  const auto inspection = read_inspection(text, "job.xml", d);
  const bool passed = inspection && assess(trial(), *inspection, Settings{}, Given{}, d);
  CHECK(passed == !d.has_errors());
  return messages(d);
}

std::string told_of_line(const std::string& line) { return told_of("<inspection format=\"1\" family=\"trial\" date=\"2026-11-20\">\n" + line + "\n</inspection>\n"); }

struct Slip {
  const char* kind;
  const char* line;
  const char* told;
};

const std::string date_help = "a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]";

}  // namespace

TEST_CASE("A faultless inspection is passed without a word") {
  CHECK(told_of_line(R"(<vehicle name="Grey van"><note>Dry.</note></vehicle><claimed by="seller" built="1952" market="home"/><number id="chassis-number" text="1234"/>
<document kind="registration" date="1952-03"/><observed feature="headlamps" value="low"/><observed feature="bore" measure="2.5" unit="in" how="measured"/>)").empty());
}

TEST_CASE("An inspector is told where each slip is, what is wrong and what to do") {
  const std::vector<Slip> slips{
      {"an unknown element", R"(<observd feature="headlamps" value="low"/>)", "job.xml:2:1: element 'observd' is not known here; did you mean 'observed'?"},
      {"an unknown element in the vehicle", R"(<vehicle name="Van"><notes>Dry</notes></vehicle>)", "job.xml:2:21: element 'notes' is not known here; did you mean 'note'?"},
      {"an unknown attribute", R"(<observed feature="headlamps" value="low" shure="guess"/>)", "job.xml:2:43: 'observed' has no attribute 'shure'; did you mean 'sure'?"},
      {"an unknown feature", R"(<observed feature="headlmaps" value="low"/>)", "job.xml:2:11: pack 'trial' has no feature 'headlmaps'; did you mean 'headlamps'?"},
      {"a feature near to none", R"(<observed feature="tyre-tread" value="low"/>)", "job.xml:2:11: pack 'trial' has no feature 'tyre-tread'; `exworks pack show trial` lists them"},
      {"an unknown value", R"(<observed feature="headlamps" value="hihg"/>)", "job.xml:2:31: feature 'headlamps' has no value 'hihg'; did you mean 'high'?"},
      {"a value near to none", R"(<observed feature="headlamps" value="oblong"/>)", "job.xml:2:31: feature 'headlamps' has no value 'oblong'; it has low, high and other"},
      {"a feature observed twice", R"(<observed feature="headlamps" value="low"/> <observed feature="headlamps" value="high"/>)",
       "job.xml:2:55: feature 'headlamps' is observed twice; keep the better one; the first is at line 2"},
      {"a feature seen and then said not to be seen", R"(<observed feature="headlamps" value="low"/> <observed feature="headlamps" state="not-seen"/>)",
       "job.xml:2:55: feature 'headlamps' is observed twice; keep the better one; the first is at line 2"},
      {"a value and a state", R"(<observed feature="headlamps" value="low" state="missing"/>)",
       "job.xml:2:1: feature 'headlamps' has more than one of value, not, state and measure; give one: value=\"...\", not=\"...\", measure=\"...\" with unit=\"...\", or state=\"not-seen\""},
      {"neither value nor state", R"(<observed feature="headlamps"/>)",
       "job.xml:2:1: nothing is said of feature 'headlamps'; give one: value=\"...\", not=\"...\", measure=\"...\" with unit=\"...\", or state=\"not-seen\""},
      {"no feature", R"(<observed value="low"/>)", "job.xml:2:1: 'observed' needs the attribute 'feature'; write feature=\"...\""},
      {"an unknown state", R"(<observed feature="headlamps" state="gone"/>)", "job.xml:2:31: 'gone' can't be 'state'; write one of not-seen, missing and cannot-tell"},
      {"a measure without its unit", R"(<observed feature="bore" measure="57"/>)", "job.xml:2:26: a measure needs its unit; write unit=\"mm\", \"in\", \"cc\", \"cu-in\" ..."},
      {"a measure that is no number", R"(<observed feature="bore" measure="2 1/2" unit="in"/>)", "job.xml:2:26: '2 1/2' is no measure; write it like 850, or 850..950 where it lies between the two"},
      {"a unit of another kind", R"(<observed feature="bore" measure="57" unit="cc"/>)",
       "job.xml:2:39: 'cc' does not measure what feature 'bore' is measured in; give it in mm"},
      {"a unit that nobody knows", R"(<observed feature="bore" measure="57" unit="cm"/>)", "job.xml:2:39: 'cm' can't be 'unit'; write one of mm, in, cc, l, cu-in, kg, lb, V and none"},
      {"a measure of what is not measured", R"(<observed feature="headlamps" measure="700" unit="mm"/>)",
       "job.xml:2:31: feature 'headlamps' is not measured; give one of its values: value=\"...\""},
      {"an unknown number", R"(<number id="chasis-number" text="1234"/>)", "job.xml:2:9: pack 'trial' has no number 'chasis-number'; did you mean 'chassis-number'?"},
      {"a number given twice", R"(<number id="chassis-number" text="1234"/> <number id="chassis-number" text="1235"/>)",
       "job.xml:2:51: number 'chassis-number' is given twice; keep the one on the vehicle, and write the other in its note"},
      {"a number without its text", R"(<number id="chassis-number"/>)", "job.xml:2:1: 'number' needs the attribute 'text'; write text=\"...\""},
      {"an empty number", R"(<number id="chassis-number" text=""/>)", "job.xml:2:29: 'text' is empty; write its text"},
      {"a way of looking that is none", R"(<observed feature="headlamps" value="low" how="smelt"/>)", "job.xml:2:43: 'smelt' can't be 'how'; write one of seen, measured, read, photo and told"},
      {"a sureness that is none", R"(<observed feature="headlamps" value="low" sure="very"/>)", "job.xml:2:43: 'very' can't be 'sure'; write one of sure, probable and guess"},
      {"a wear that is none", R"(<observed feature="headlamps" value="low" wear="new"/>)", "job.xml:2:43: 'new' can't be 'wear'; write one of consistent, fresher and older"},
      {"a mark that is none", R"(<observed feature="headlamps" value="low" mark="yes"/>)", "job.xml:2:43: 'yes' can't be 'mark'; write one of maker, other-maker and none"},
      {"a claim of a market that the pack has not", R"(<claimed by="seller" market="abraod"/>)", "job.xml:2:22: pack 'trial' has no market 'abraod'; did you mean 'abroad'?"},
      {"a claim of a variant that the pack has not", R"(<claimed by="seller" built="1952" variant="two-vna"/>)", "job.xml:2:35: pack 'trial' has no variant 'two-vna'; did you mean 'two-van'?"},
      {"a claim of a body that the pack has not", R"(<claimed body="landaulette"/>)", "job.xml:2:10: pack 'trial' has no body 'landaulette'; it has van"},
      {"a document of no known kind", R"(<document kind="logbook" date="1952"/>)",
       "job.xml:2:11: 'logbook' can't be 'kind'; write one of build-record, works-record, registration, plate, handbook, invoice, test-certificate, photograph, import-paper, letter and owner"},
      {"a document without its kind", R"(<document date="1952"/>)", "job.xml:2:1: 'document' needs the attribute 'kind'; write kind=\"...\""},
      {"a second vehicle", R"(<vehicle name="A"/><vehicle name="B"/>)", "job.xml:2:20: a second 'vehicle'; an inspection is of one; merge them"},
      {"an expectation without its verdict", R"(<expect feature="headlamps" source="BOOK"/>)",
       "job.xml:2:1: an expectation of a feature names its verdict; write feature=\"...\" verdict=\"original\""},
      {"an expectation without its source", R"(<expect generation="one"/>)", "job.xml:2:1: 'expect' needs the attribute 'source'; write source=\"...\""},
      {"an attribute given twice", R"(<observed feature="headlamps" value="low" value="high"/>)", "job.xml:2:43: attribute 'value' is given twice; keep one of them"},
  };
  for (const Slip& s : slips) {
    INFO(s.kind);
    CHECK(told_of_line(s.line) == s.told + std::string("\n"));
  }
}

TEST_CASE("A date that is none is told with the ways to write one") {
  CHECK(told_of_line(R"(<claimed built="March 1952"/>)") == "job.xml:2:10: 'March 1952' is no date; " + date_help + "\n");
  CHECK(told_of_line(R"(<document kind="letter" date="1952-00"/>)") == "job.xml:2:25: '1952-00' is no date; " + date_help + "\n");
  CHECK(told_of("<inspection format=\"1\" date=\"20.11.2026\"/>") == "job.xml:1:24: '20.11.2026' is no date; " + date_help + "\n");
}

TEST_CASE("An inspection of another format or another kind of file is refused as a whole") {
  CHECK(told_of("<inspection format=\"7\"/>") == "job.xml:1:13: the file has format '7'; this program reads formats 1 and 2; update the program\n");
  CHECK(told_of("<inspection/>") == "job.xml:1:1: 'inspection' needs the attribute 'format'; write format=\"...\"\n");
  CHECK(told_of("<pack format=\"1\" id=\"trial\"/>") == "job.xml:1:1: the root element is 'pack'; an inspection begins with <inspection format=\"1\">\n");
  CHECK(told_of("") == "job.xml:1:1: there is no element in the file; write the root element\n");
}

TEST_CASE("All slips of an inspection are told in one run, in the order of the file") {
  CHECK(told_of_line("<observed feature=\"headlamps\" value=\"low\" how=\"smelt\"/>\n<document kind=\"logbook\"/>\n<claimed built=\"1952-13\"/>") ==
        "job.xml:2:43: 'smelt' can't be 'how'; write one of seen, measured, read, photo and told\n"
        "job.xml:3:11: 'logbook' can't be 'kind'; write one of build-record, works-record, registration, plate, handbook, invoice, test-certificate, photograph, import-paper, letter and owner\n"
        "job.xml:4:10: '1952-13' is no date; " + date_help + "\n");
  CHECK(told_of_line("<observed feature=\"headlmaps\" value=\"low\"/>\n<observed feature=\"bore\" value=\"wied\"/>") ==
        "job.xml:2:11: pack 'trial' has no feature 'headlmaps'; did you mean 'headlamps'?\n"
        "job.xml:3:26: feature 'bore' has no value 'wied'; did you mean 'wide'?\n");
}

TEST_CASE("A number that no form reads is no mistake of the inspector: the assessment goes on and says so") {
  const auto a = assess_lines(trial(), R"(<number id="chassis-number" text="AB 12"/><observed feature="headlamps" value="low"/>)");
  CHECK_FALSE(number(a, "chassis-number").reading);
  CHECK(number_note(*a.tables, number(a, "chassis-number")).find("no form of Chassis number reads 'AB 12'") != std::string::npos);
}
