#include "base/file.hpp"
#include "mistakes.hpp"

/// What contradicts itself in a pack, and what is no pack file at all.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::vector<Mistake> contradictions{
    {"an empty scope",
     R"(value="ribbed" generations="one")", R"(value="ribbed" variants="one-* !one-van")",
     "trial/pack.xml:28:3: no vehicle was ever built in the scope of this 'fact'; check that these variants list the markets and plants, and that the plants serve the markets"},
    {"a fact for vehicles that lack the feature",
     R"(assembly="gearbox" unit)", R"(assembly="gearbox" generations="one" unit)",
     "trial/pack.xml:29:3: this fact speaks only of vehicles on which feature 'casing' does not exist; widen the feature's scope or correct the fact's"},
    {"a period outside the variants' window",
     R"(value="smooth" generations="two")", R"(value="smooth" generations="two" to="1954-06")",
     "trial/pack.xml:29:3: this fact's period is outside the window of its variants (Jan 1955 to Dec 1958); correct the dates or the scope"},
    {"two standard facts in force at once",
     R"(<fact value="high" from="1953-01")", R"(<fact value="high" from="1952-06")",
     "trial/pack.xml:23:3: standard facts 'low' and 'high' of feature 'lamps' are both in force in Jul 1952 (one-van, home); end one with the edge that begins the other, narrow a scope, or give shares; the other is at trial/pack.xml:22:3"},
    {"a gap, which is only noted",
     R"(<fact value="high" from="1953-01")", R"(<fact value="high" from="1956-01")",
     "trial/pack.xml:19:1: note: the pack is silent on feature 'lamps' for 36 % of the builds (one-van, home, Feb 1953 to Dec 1954); nothing need be done; such builds are taken to be like their nearest relatives, and where they lead the verdict stays uncertain"},
    {"a value to which nothing leads",
     R"(<value id="high" name="high"/>)", R"(<value id="high" name="high"/> <value id="none" name="none"/>)",
     "trial/pack.xml:21:34: nothing leads to value 'none' of feature 'lamps'; write a fact, a later change or a conversion that gives it, or delete it"},
    {"number ranges that overlap",
     R"(<range first="1000" last="2000" from="1955-01" to="1958-12" generations="two")", R"(<range first="900" last="2000" from="1954-01" to="1958-12")",
     "trial/pack.xml:41:3: number range 900 to 2000 overlaps 1 to 999; correct the numbers or narrow a scope; the other is at trial/pack.xml:40:3"},
    {"a number range that runs backwards",
     R"(last="999")", R"(last="0")",
     "trial/pack.xml:40:20: this range runs backwards: 1 to 0; swap first and last"},
    {"a number range whose dates run backwards",
     R"(last="999" from="1951-01" to="1954-12")", R"(last="999" from="1951-01" to="1950-12")",
     "trial/pack.xml:40:46: this range ends before it begins; swap or correct the dates"},
    {"a number range without an end",
     R"(last="999" from="1951-01" to="1954-12")", R"(last="999" from="1951-01" to="..")",
     "trial/pack.xml:40:3: a number range needs both dates; write the months, or a span such as [1950..1952]"},
    {"a form that does not read its own example",
     R"(example="V 1234")", R"(example="X 1234")",
     "trial/pack.xml:36:38: the form doesn't read its own example 'X 1234'; at 'X 1234' it wants Body letter, one of V and P"},
    {"an assembly without features",
     R"(<assembly id="gearbox")", R"(<assembly id="axle" name="Axle"/> <assembly id="gearbox")",
     R"(trial/pack.xml:16:1: assembly 'axle' has no features; give a feature assembly="axle", or delete it)"},
    {"option shares that add up to too much",
     R"(<fact value="high" from="1953-01" source="BOOK"/>)", R"(<fact value="high" from="1953-01" source="BOOK"/> <fact value="low" from="1953-01" fitted="option" share="0.6" source="BOOK"/> <fact value="other" from="1953-01" fitted="dealer" share="0.6" source="BOOK"/>)",
     "trial/pack.xml:19:1: the option and dealer shares of feature 'lamps' add up to more than 1 for some builds; lower the shares"},
    {"a second identity number",
     "</number>", R"(</number>
<number id="frame" name="Frame number" identity="yes" where="Rail" source="BOOK"><form id="f" name="Form" source="BOOK"><serial digits="4"/></form></number>)",
     R"(trial/pack.xml:43:1: a second number is marked identity="yes"; a vehicle is known by one; make this one identity="no")"},
    {"a variant in two interchange rows",
     R"(<interchange variants="*")", R"(<interchange variants="one-*" donors="*" source="BOOK"/> <interchange variants="*")",
     "trial/pack.xml:17:60: variant 'one-van' stands in two interchange rows; put all its donors into one row; the other is at trial/pack.xml:17:3"},
    {"volumes that overlap",
     R"(<volume generations="one")", R"(<volume from="1951-06" to="1952-05" units="40" source="BOOK"/> <volume generations="one")",
     "trial/pack.xml:15:64: this volume overlaps another in scope and period; split the periods or the scopes; the other is at trial/pack.xml:15:1"},
    {"a later change that sets a feature of another assembly",
     R"(<sets feature="casing" value="other")", R"(<sets feature="lamps" value="low")",
     R"(trial/pack.xml:33:9: feature 'lamps' is not in the assembly that this changes; give the feature assembly="gearbox", or leave it out here)"},
    {"a later change that sets nothing",
     R"(<sets feature="casing" value="other"/>)", "",
     R"(trial/pack.xml:32:1: this later change sets nothing; write <sets feature="..." value="..."/> inside)"},
    {"a pack id that is not the folder's",
     R"(id="trial")", R"(id="trail")",
     "trial/pack.xml:1:18: the pack is called 'trail' but its folder 'trial'; give both the same name"},
    {"a format of the future",
     R"(format="1")", R"(format="3")",
     "trial/pack.xml:1:7: the file has format '3'; this program reads formats 1 and 2; update the program, or use an edition of the pack written for it"},
    {"an include that is missing",
     R"(<place id="front")", R"(<include href="places.xml"/> <place id="front")",
     "trial/pack.xml:3:10: there is no file 'trial/places.xml' to include; correct the path; it counts from this file's folder"},
    {"an attribute given twice",
     R"(weight="5")", R"(weight="5" weight="6")",
     "trial/pack.xml:19:59: attribute 'weight' is given twice; keep one of them"},
    {"a document type",
     "<pack format", R"(<!DOCTYPE pack>
<pack format)",
     "trial/pack.xml:1:1: a DOCTYPE is not allowed; delete it; the format has no entities of its own"},
    {"a second root",
     "</pack>", R"(</pack>
<pack/>)",
     "trial/pack.xml:44:1: a second root element 'pack'; a file has one root; move it inside or into another file"},
    {"text after the root",
     R"(</pack>
)", R"(</pack>

  stray
)",
     "trial/pack.xml:45:3: text outside the root element; delete it or put it in a comment"},
    {"an entity of the author's own",
     R"(name="low"/>)", R"(name="&eacute;"/>)",
     "trial/pack.xml:20:25: '&' does not begin one of the five built-in entities or a character number; write &amp; for the sign itself"},
    {"a tag that closes another",
     "</assembly>", "</asembly>",
     "trial/pack.xml:18:1: this is not well-formed XML: Start-end tags mismatch; check the tags and quotes here and just before"},
};

}  // namespace

TEST_CASE("An author is told what in the pack contradicts itself") { check_mistakes(contradictions); }

TEST_CASE("An option with no standard fact beside it is a warning, and the silence is noted") {
  const std::string text = with_edit(faultless, "<fact value=\"high\" from", "<fact value=\"high\" fitted=\"option\" share=\"0.5\" from");
  // From Feb 1953 to Dec 1958 are 71 months, in two markets; of 96 months they are 73 %.
  CHECK(messages(check_text(text)) ==
        "trial/pack.xml:19:1: warning: feature 'lamps' has an option with no standard fact beside it for 142 builds; say with a standard fact what the others have\n"
        "trial/pack.xml:19:1: note: the pack is silent on feature 'lamps' for 73 % of the builds (one-van, home, Feb 1953 to Dec 1954); "
        "nothing need be done; such builds are taken to be like their nearest relatives, and where they lead the verdict stays uncertain\n");
  CHECK_FALSE(check_text(text).has_errors());
}

TEST_CASE("The works may have fitted none of a feature's values, and two such facts still contradict others") {
  CHECK(messages(check_text(with_edit(faultless, "<fact value=\"low\" to", "<fact value=\"other\" to"))) ==
        "trial/pack.xml:20:3: nothing leads to value 'low' of feature 'lamps'; write a fact, a later change or a conversion that gives it, or delete it\n");
}

TEST_CASE("A byte-order mark is refused at the first character") {
  CHECK(messages(check_text("\xEF\xBB\xBF" + faultless)) == "trial/pack.xml:1:1: the file begins with a byte-order mark; save it as UTF-8 without one\n");
}

TEST_CASE("A byte that is no UTF-8 is pointed at, whatever letters stand before it") {
  // In <market id="home" name="Z??"/> a letter of two bytes is column 26; the Latin-1 letter behind it is column 27.
  CHECK(messages(check_text(with_edit(faultless, "name=\"Home\"", "name=\"Z\xC3\xA9\xE9\""))) ==
        "trial/pack.xml:7:27: this byte is not UTF-8 text; save the file as UTF-8\n");
}

TEST_CASE("All mistakes of a file are told in one run, in the order of the file") {
  std::string text = with_edit(faultless, "altered=\"0.05\"", "altered=\"5 %\"");
  text = with_edit(text, "share=\"2\"", "share=\"two\"");
  text = with_edit(text, "weight=\"5\"", "weight=\"50\"");
  text = with_edit(text, "<fact value=\"low\" to=\"1953-01\"", "<fact value=\"lwo\" to=\"1953-13\"");
  text = with_edit(text, "last=\"2000\"", "last=\"20\"");
  CHECK(messages(check_text(text)) ==
        "trial/pack.xml:6:8: '5 %' is no number; write it like 0.25\n"
        "trial/pack.xml:8:35: 'two' is no number; write it like 0.25\n"
        "trial/pack.xml:19:48: '50' can't be 'weight'; write a whole number from 0 to 10\n"
        "trial/pack.xml:22:9: there is no value 'lwo'; did you mean 'low'?\n"
        "trial/pack.xml:22:21: '1953-13' is no date; a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]\n"
        "trial/pack.xml:41:23: this range runs backwards: 1000 to 20; swap first and last\n");
}

TEST_CASE("A mistake in a variant hides none further down, and no scope is blamed for it") {
  std::string text = with_edit(faultless, "name=\"Series 2 van\" generation=\"two\"", "name=\"Series 2 van\" generation=\"tow\"");
  text = with_edit(text, "to=\"1953-01\" source=\"BOOK\"", "to=\"1953-01\" source=\"\"");
  CHECK(messages(check_text(text)) ==
        "trial/pack.xml:14:43: there is no generation 'tow'; did you mean 'two'?\n"
        "trial/pack.xml:22:3: this 'fact' has no source; write source=\"...\"; source=\"memory\" when it is only remembered\n");
}

TEST_CASE("The files of a pack are read together, and each is told its own mistakes") {
  const TemporaryFolder folder;
  const std::string pack = (folder.path() / "trial").string();
  folder.write("trial/pack.xml", with_edit(faultless, "weight=\"5\"", "weight=\"50\""));
  folder.write("trial/body.xml", "<pack format=\"1\" id=\"trail\">\n<place id=\"front\" name=\"Front\"/>\n</pack>\n");
  folder.write("trial/notes.xml", "<notes/>\n");
  const std::string moved = pack + "/body.xml:1:18: this file belongs to pack 'trail', pack.xml to 'trial'; write the same id, or move the file\n";
  Diagnostics d;
  CHECK_FALSE(read_pack(pack, d));
  CHECK(messages(d) == moved + pack + "/notes.xml:1:1: the root element is 'notes'; a file in a pack's folder begins with <pack format=\"1\" id=\"...\">\n");
  fs::remove(folder.path() / "trial/notes.xml");
  Diagnostics again;
  CHECK_FALSE(read_pack(pack, again));
  CHECK(messages(again) == moved + pack + "/body.xml:2:1: place 'front' is given twice; rename one; the first is at " + pack + "/pack.xml:3:1\n" + pack +
                               "/pack.xml:19:48: '50' can't be 'weight'; write a whole number from 0 to 10\n");
}

TEST_CASE("A folder that is no pack is refused by its name") {
  const TemporaryFolder folder;
  Diagnostics d;
  for (const std::string& name : {folder.path().string() + "/nothing-here", folder.path().string() + "/" + std::string(5000, 'a')}) {
    std::string told;
    try {
      read_pack(name, d);
    } catch (const FileError& e) {
      told = e.what + "; " + e.remedy;
    }
    CHECK(told == name + ": there is no such folder; name the folder of a pack");
  }
}

TEST_CASE("An include with a name that no disk can hold is missing like any other") {
  const Diagnostics d = check_text(with_edit(faultless, "<place id=\"front\"", "<include href=\"" + std::string(5000, 'a') + "\"/> <place id=\"front\""));
  REQUIRE(d.error_count() == 1);
  CHECK(to_text(d.all().front()).starts_with("trial/pack.xml:3:10: there is no file 'trial/aaa"));
}

TEST_CASE("An author is told when conversions become too many to sum over", "[pack]") {
  std::string conversions;
  for (int i = 0; i < 11; ++i) conversions += "<conversion id=\"c" + std::to_string(i) + "\" name=\"c\" share=\"0.01\" source=\"BOOK\"><sets feature=\"lamps\" value=\"high\"/></conversion>\n";
  const std::string told = messages(check_text(with_edit(faultless, "</pack>", conversions + "</pack>")));
  CHECK(told.find("more than 10 conversions touch the same features and assemblies, one through another; write the rarest as later changes, or let each set fewer features") != std::string::npos);
}
