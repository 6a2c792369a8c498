#include <catch2/catch.hpp>

#include "numbers/date_codes.hpp"
#include "words/codes.hpp"

/// Worked examples SF-1 to SF-14 of the research dossier (standards, section 5.6), each with the page that prints it.
using namespace exworks;

namespace {

const Day today = day_of(2026, 11, 25);

std::vector<std::string> spans(const CodeReading& r) {
  std::vector<std::string> out;
  for (const CodeCandidate& c : r.candidates) out.push_back(to_iso(c.first) + "/" + to_iso(c.last));
  return out;
}

std::vector<std::string> words(const CodeReading& r) {
  std::vector<std::string> out;
  for (const CodeCandidate& c : r.candidates) out.push_back(c.words);
  return out;
}

bool refused(const CodeReading& r) { return r.candidates.empty() && !r.faults.empty() && !r.faults[0].what.empty() && !r.faults[0].remedy.empty(); }

using List = std::vector<std::string>;

}  // namespace

TEST_CASE("Tyre codes of four digits", "[codes]") {
  // SF-1: viperclub.org; the day is derived by ISO 8601
  CHECK(spans(read_tyre_code("3500", false, today)) == List{"2000-08-28/2000-09-03"});
  // SF-2: corvetteclub.org.uk; age in November 2026 derived
  const CodeReading sf2 = read_tyre_code("0203", false, today);
  CHECK(words(sf2) == List{"week 2 of 2003"});
  CHECK(full_years(sf2.candidates.at(0).first, today) == 23);
  // SF-3: linhelps.com
  CHECK(words(read_tyre_code("2501", false, today)) == List{"week 25 of 2001"});
  // SF-7: derived
  CHECK(refused(read_tyre_code("6012", false, today)));
  CHECK(refused(read_tyre_code("0012", false, today)));
  // A date to come is a misreading; so is a code that is no code.
  CHECK(refused(read_tyre_code("3595", false, today)));
  CHECK(refused(read_tyre_code("12", false, today)));
  CHECK(refused(read_tyre_code("35X0", false, today)));
  CHECK(refused(read_tyre_code("", false, today)));
  CHECK_FALSE(read_tyre_code("3500", true, today).faults.empty());
}

TEST_CASE("Tyre codes of three digits keep every decade", "[codes]") {
  // SF-4: viperclub.org gives 1999 alone; the candidates are derived from the rule
  CHECK(words(read_tyre_code("439", false, today)) == List{"week 43 of 1979", "week 43 of 1989", "week 43 of 1999"});
  // SF-5: magwheel.co.za
  CHECK(words(read_tyre_code("346", true, today)) == List{"week 34 of 1996"});
  // SF-6: linhelps.com gives 1997; the ambiguity is derived
  CHECK(words(read_tyre_code("317", false, today)) == List{"week 31 of 1977", "week 31 of 1987", "week 31 of 1997"});
  CHECK(within(read_tyre_code("317", false, today), {1990, 1999}).size() == 1);
  // Conflict 8 of the dossier: a caravan site reads month and year, against the US rule; 41 is a week.
  CHECK(words(read_tyre_code("414", true, today)) == List{"week 41 of 1994"});
}

TEST_CASE("Week 53 is taken with a warning", "[codes]") {
  // ISO 8601: 2004 and 2015 have 53 weeks, 2005 has 52
  CHECK(spans(read_tyre_code("5304", false, today)) == List{"2004-12-27/2005-01-02"});
  CHECK(spans(read_tyre_code("5315", false, today)) == List{"2015-12-28/2016-01-03"});
  CHECK(spans(read_tyre_code("5305", false, today)) == List{"2005-12-25/2005-12-31"});
  CHECK(read_tyre_code("5305", false, today).remarks.size() > read_tyre_code("5304", false, today).remarks.size());
  CHECK(read_tyre_code("5304", false, today).remarks.size() > read_tyre_code("5204", false, today).remarks.size());
  // ISO 8601: week 1 holds the first Thursday; 2009 begins on 29 December 2008
  CHECK(spans(read_tyre_code("0109", false, today)) == List{"2008-12-29/2009-01-04"});
}

TEST_CASE("A tyre over ten years old on the front axle of a lorry", "[codes]") {
  // SF-8: rule from 1 February 2021 (uknip.co.uk, transportnews.co.uk); on a car a caution only
  const CodeReading r = read_tyre_code("1014", false, today);
  CHECK(gb_tyre_age(r, TyreUse::goods_front_steered, today) == TyreAge::too_old);
  CHECK(gb_tyre_age(r, TyreUse::other, today) == TyreAge::no_rule);
  CHECK(gb_tyre_age(r, TyreUse::goods_front_steered, day_of(2021, 1, 31)) == TyreAge::no_rule);
  CHECK(gb_tyre_age(r, TyreUse::bus_front_steered, day_of(2024, 3, 9)) == TyreAge::allowed);
  CHECK(gb_tyre_age(r, TyreUse::bus_front_steered, day_of(2024, 3, 10)) == TyreAge::too_old);
  // No date code fails there; a code that can't be read decides nothing.
  CHECK(gb_tyre_age(read_tyre_code("", false, today), TyreUse::minibus_single, today) == TyreAge::too_old);
  CHECK(gb_tyre_age(read_tyre_code("6012", false, today), TyreUse::minibus_single, today) == TyreAge::undetermined);
}

TEST_CASE("Triplex dots", "[codes]") {
  // SF-9: mgaguru.com: dot over R, dot under the last E of TOUGHENED, a vehicle of the 1950s
  TriplexMark sf9;
  sf9.year_letter = 'E';
  sf9.occurrence = 2;
  sf9.quarter_letters = "R";
  const auto fifties = within(read_triplex(sf9), {1950, 1959});
  REQUIRE(fifties.size() == 1);
  CHECK(to_iso(fifties[0].first) == "1958-04-01");
  CHECK(to_iso(fifties[0].last) == "1958-06-30");
  sf9.occurrence = 1;
  CHECK(within(read_triplex(sf9), {1950, 1959}).at(0).words == "April to June 1956");
  sf9.occurrence = 0;  // which E isn't known: both are kept
  CHECK(within(read_triplex(sf9), {1950, 1959}).size() == 2);
  // SF-10: moreg.org.au
  TriplexMark sf10;
  sf10.year_letter = 'U';
  sf10.era = GlassEra::before_war;
  CHECK(words(read_triplex(sf10)) == List{"1933"});
  // SF-11: moreg.org.au: dot to the right of the D
  TriplexMark sf11;
  sf11.right_of_word = true;
  sf11.era = GlassEra::before_war;
  CHECK(words(read_triplex(sf11)) == List{"1940"});
  sf11.era = GlassEra::unknown;
  CHECK(words(read_triplex(sf11)) == List{"1930", "1940", "1950", "1960"});
  // bobine.nl: the letters of LAMINATED, nine years; the word and the standard mark are from after the war
  int year = 0;
  for (const auto& [letter, nth] : std::vector<std::pair<char, int>>{{'L', 1}, {'A', 1}, {'M', 1}, {'I', 1}, {'N', 1}, {'A', 2}, {'T', 1}, {'E', 1}, {'D', 1}}) {
    TriplexMark m;
    m.word = TriplexWord::laminated;
    m.year_letter = letter;
    m.occurrence = nth;
    CHECK(within(read_triplex(m), {1950, 1959}).at(0).words == std::to_string(1951 + year++));
    CHECK(within(read_triplex(m), {1900, 1944}).empty());
  }
}

TEST_CASE("What a Triplex mark can't say", "[codes]") {
  TriplexMark m;
  m.year_letter = 'L';  // not in TOUGHENED
  CHECK(refused(read_triplex(m)));
  m.year_letter = 'T';
  m.occurrence = 2;
  CHECK(refused(read_triplex(m)));
  m.occurrence = 0;
  m.quarter_letters = "P";  // no quarter
  CHECK(refused(read_triplex(m)));
  m.quarter_letters = "TTX";  // the style from about 1969: not read, and no fault
  CHECK(read_triplex(m).candidates.empty());
  CHECK(read_triplex(m).faults.empty());
  CHECK_FALSE(read_triplex(m).remarks.empty());
  m.quarter_letters = "";
  m.kite_mark = true;  // 1945 or later
  CHECK(words(read_triplex(m)) == List{"1951", "1961"});
  m.era = GlassEra::before_war;
  CHECK(refused(read_triplex(m)));
  // moreg.org.au: the figure of laminated glass before the war
  CHECK(words(read_triplex_figure(7)) == List{"1937"});
  CHECK(refused(read_triplex_figure(12)));
}

TEST_CASE("Numeral and dots on modern glass, with the rival reading", "[codes]") {
  // us.ok.com, "How to check the production date on glass": five dots before 8 is February 2018
  CHECK(words(read_numeral_glass({8, 5, 0, 0}, {2010, 2019})) == List{"Feb 2018"});
  // us.ok.com, "How to determine the year of a car by its glass", gives four dots before 3 as April 2013, but takes the
  // figure from 7 instead of the dots; by the rule it states itself this is March.
  CHECK(words(read_numeral_glass({3, 4, 0, 0}, {2010, 2019})) == List{"Mar 2013"});
  // the same page: 7, four small and two large dots is November 2017 by the second method; July by the first
  const CodeReading both = read_numeral_glass({7, 0, 6, 2}, {2010, 2019});
  CHECK(words(both) == List{"Jul 2017", "Nov 2017"});
  CHECK(both.conflict);
  CHECK(both.certainty == CodeCertainty::copy);
  // the same site: 8 followed by three dots is October, if they are not the third quarter
  CHECK(words(read_numeral_glass({8, 0, 3, 0}, {2010, 2019})) == List{"Oct 2018", "July to September 2018"});
  CHECK(words(read_numeral_glass({8, 1, 0, 0}, {2000, 2019})) == List{"Jun 2008", "Jun 2018"});
  CHECK(refused(read_numeral_glass({8, 7, 0, 0}, {2010, 2019})));
  CHECK(refused(read_numeral_glass({8, 0, 0, 0}, {2010, 2019})));
  CHECK(refused(read_numeral_glass({8, 2, 2, 0}, {2010, 2019})));
}

TEST_CASE("US Ford casting dates", "[codes]") {
  // SF-12: fordclassics.com
  CHECK(spans(read_ford_casting("6B10", {1960, 1969})) == List{"1966-02-10/1966-02-10"});
  CHECK(read_ford_casting("6B10", {1956, 1969}).candidates.size() == 2);
  // SF-13: derived, I is not used
  CHECK(refused(read_ford_casting("5I02", {1960, 1969})));
  CHECK(spans(read_ford_casting("5J2", {1960, 1969})) == List{"1965-09-02/1965-09-02"});
  CHECK(spans(read_ford_casting("5M31", {1960, 1969})) == List{"1965-12-31/1965-12-31"});
  CHECK(refused(read_ford_casting("5N01", {1960, 1969})));
  // A leap day settles the decade.
  CHECK(spans(read_ford_casting("8B29", {1960, 1989})) == List{"1968-02-29/1968-02-29", "1988-02-29/1988-02-29"});
  CHECK(refused(read_ford_casting("6B30", {1960, 1969})));
  CHECK(refused(read_ford_casting("B10", {1960, 1969})));
}

TEST_CASE("A foundry clock and the colour of brake fluid are never dates", "[codes]") {
  // e-rods.com and forabodiesonly.com: accounts differ. NHTSA interpretations of Standard 116
  for (const CodeReading& r : {read_foundry_clock(), read_brake_fluid("amber"), read_brake_fluid("violet"), read_brake_fluid("green")}) {
    INFO(r.kind);
    CHECK(r.candidates.empty());
    CHECK(r.certainty == CodeCertainty::no_rule);
    CHECK_FALSE(r.remarks.empty());
    CHECK(compare_with_build(r, {Month::of(1965, 1), Month::of(1965, 2)}).overall == Timing::says_nothing);
  }
}

TEST_CASE("Belt labels", "[codes]") {
  // SF-14: derived from Standard 209 (NHTSA interpretation nht91-3.13)
  CHECK(judge_belt_label(1974, 1968) == BeltAge::replaced);
  CHECK(judge_belt_label(1968, 1968) == BeltAge::may_be_original);
  CHECK(judge_belt_label(1967, 1968) == BeltAge::may_be_original);
  CHECK(judge_belt_label(1969, 1968) == BeltAge::cannot_tell);
  CHECK(judge_belt_label(1970, 1968) == BeltAge::replaced);
  CHECK(judge_belt_label(std::nullopt, 1968) == BeltAge::cannot_tell);
  CHECK(spans(read_belt_label(1974)) == List{"1974-01-01/1974-12-31"});
  CHECK(read_belt_label(1960).remarks.size() > read_belt_label(1974).remarks.size());
}

TEST_CASE("Sealed beams and approval marks give an earliest date", "[codes]") {
  // forabodiesonly.com, a specialist's post: 5400 from 1956, 6012 from 1958
  CHECK(spans(read_sealed_beam("5400")) == List{"1956-01-01/1956-12-31"});
  CHECK(read_sealed_beam("6012").earliest_only);
  CHECK(compare_with_build(read_sealed_beam("6012"), {Month::of(1955, 1), Month::of(1955, 6)}).overall == Timing::after);
  CHECK(compare_with_build(read_sealed_beam("6012"), {Month::of(1975, 1), Month::of(1975, 6)}).overall == Timing::says_nothing);
  CHECK(refused(read_sealed_beam("9999")));
  // EU-003, EU-004: SI 1984/981, Schedule 1; EU-001: Directive 76/114/EEC of 18 December 1975
  CHECK(spans(read_approval_mark("R11")) == List{"1969-01-08/1969-01-08"});
  CHECK(spans(read_approval_mark("r10")) == List{"1968-12-17/1968-12-17"});
  CHECK(spans(read_approval_mark("76/114")) == List{"1975-12-18/1975-12-18"});
  CHECK(compare_with_build(read_approval_mark("R11"), {Month::of(1965, 1), Month::of(1965, 6)}).overall == Timing::after);
  CHECK(refused(read_approval_mark("R999")));
}

TEST_CASE("British registration marks give an earliest date of registration", "[codes]") {
  // philseed.com (suffix); Performance Car Guide, ukoffroad.com (prefix); encyclopaedia, nocto.com (current)
  const auto first = [](const char* mark) { return to_iso(read_gb_mark(mark).candidates.at(0).first); };
  CHECK(first("ABC 123A") == "1963-01-01");
  CHECK(spans(read_gb_mark("ABC 123E")) == List{"1967-01-01/1967-07-31"});
  CHECK(spans(read_gb_mark("ABC 1F")) == List{"1967-08-01/1968-07-31"});
  CHECK(spans(read_gb_mark("abc-123y")) == List{"1982-08-01/1983-07-31"});
  CHECK(spans(read_gb_mark("A123 BCD")) == List{"1983-08-01/1984-07-31"});
  CHECK(spans(read_gb_mark("S123 BCD")) == List{"1998-08-01/1999-02-28"});
  CHECK(spans(read_gb_mark("V123 BCD")) == List{"1999-09-01/2000-02-29"});
  CHECK(spans(read_gb_mark("AB51 CDE")) == List{"2001-09-01/2002-02-28"});
  CHECK(spans(read_gb_mark("AB02 CDE")) == List{"2002-03-01/2002-08-31"});
  CHECK(spans(read_gb_mark("AB52 CDE")) == List{"2002-09-01/2003-02-28"});
  CHECK(first("ABC 123") == "1932-01-01");  // conflicting: another list says 1934
  CHECK(read_gb_mark("ABC 123").conflict);
  CHECK(first("123 ABC") == "1953-01-01");
  CHECK(first("AB 1234") == "1904-01-01");
  for (const char* none : {"ABC 123I", "ABC 123O", "ABC 123Q", "ABC 123U", "ABC 123Z", "Z123 BCD", "AB01 CDE", "", "ABCDE", "12345", "AB12C3D", "A1B"}) {
    INFO(none);
    CHECK(refused(read_gb_mark(none)));
  }
  CHECK(read_gb_mark("Q123 BCD").candidates.empty());
  CHECK(read_gb_mark("Q123 BCD").faults.empty());
  for (const char* mark : {"ABC 123A", "A123 BCD", "AB51 CDE", "ABC 123"}) {
    const CodeReading r = read_gb_mark(mark);
    CHECK(r.earliest_only);
    bool said = false;
    for (const std::string& s : r.remarks) said = said || s.find("only an earliest date") != std::string::npos;
    CHECK(said);
  }
  // Nothing follows from a mark older than the vehicle.
  CHECK(compare_with_build(read_gb_mark("ABC 123C"), {Month::of(1970, 1), Month::of(1970, 6)}).overall == Timing::says_nothing);
  CHECK(compare_with_build(read_gb_mark("ABC 123L"), {Month::of(1970, 1), Month::of(1970, 6)}).overall == Timing::after);
}

TEST_CASE("A code against the build window", "[codes]") {
  const BuildWindow built{Month::of(1966, 3), Month::of(1966, 5)};
  const auto of = [&](const char* code, TimingLimits limits = {}) { return compare_with_build(read_ford_casting(code, {1960, 1969}), built, limits).overall; };
  // Common practice, no source: twelve months before the build; section 5.2 of the dossier says "about a year" for tyres.
  CHECK(of("6B10") == Timing::supports);
  CHECK(of("6E31") == Timing::supports);
  CHECK(of("6F1") == Timing::after);
  CHECK(of("5C1") == Timing::supports);
  CHECK(of("5B28") == Timing::long_before);
  CHECK(of("5C1", {6}) == Timing::long_before);
  // Both kept when the decades say different things.
  const CodeReading tyre = read_tyre_code("439", false, today);
  const CodeTiming t = compare_with_build(tyre, {Month::of(1979, 12), Month::of(1980, 2)});
  CHECK(t.overall == Timing::ambiguous);
  CHECK(t.each == std::vector<Timing>{Timing::supports, Timing::after, Timing::after});
  CHECK(timing_words({0, tyre, t.overall, true}).find("judgement") != std::string::npos);
  CHECK(compare_with_build(tyre, {Month::of(1965, 1), Month::of(1966, 1)}).overall == Timing::after);
  CHECK(compare_with_build(tyre, {Month::of(2005, 1), Month::of(2005, 3)}).overall == Timing::long_before);
}
