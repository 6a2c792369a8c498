#include "numbers/grammar.hpp"
#include "support.hpp"
#include "assess/number_verdict.hpp"
#include "words/numbers.hpp"

/// Every published first or last number of a year, and every number with a published build date, reads back its year.
/// Rows marked `memory` in the dossiers are left out; "2.3" names a section of the family's dossier.md, the rest rows of facts.tsv.
using namespace exworks;
using namespace exworks::test;

namespace {

struct Case {
  const char* family;
  const char* row;   ///< where the dossier has it
  const char* text;  ///< in the pack's form
  const char* year;  ///< calendar year, or the span of a model year
};

const Case cases[] = {
    // Morris Minor. Numbers without a form in the dossier's table are written in the form of their year.
    {"morris-minor", "MMN-023, 2.5", "SMM 501", "1948"},
    {"morris-minor", "2.5 HIST7", "SMM 507", "1948"},
    {"morris-minor", "MMN-062, 2.5 MMDE", "SMM 3388", "1949"},
    {"morris-minor", "MMN-063, 2.5 MMDE", "SMM 3389", "1949"},
    {"morris-minor", "MMN-172, 2.5 MMDE", "SMM 12117", "1949"},
    {"morris-minor", "MMN-173, 2.5 MMDE", "SMM 12118", "1949"},
    {"morris-minor", "MMN-063, 2.5 MMDE", "SMM 17579", "1949"},
    {"morris-minor", "MMN-064, 2.5 MMDE", "SMM 17580", "1949"},
    {"morris-minor", "MMN-169, 2.5 MMDE", "SMM 17840", "1949"},
    {"morris-minor", "MMN-104, 2.5 MMDE", "SMM 69831", "1950"},
    {"morris-minor", "MMN-105, 2.5 MMDE", "SMM 69832", "1950"},
    {"morris-minor", "MMN-081, 2.5 MMDE", "SMM 72984", "1950"},
    {"morris-minor", "MMN-082, 2.5 MMDE", "SMM 72985", "1950"},
    {"morris-minor", "MMN-076, 2.5 MMDE", "SMM 83205", "1951"},
    {"morris-minor", "MMN-045, 2.5 MMDE", "SMM 83389", "1951"},
    {"morris-minor", "MMN-046, 2.5 MMDE", "SMM 83390", "1951"},
    {"morris-minor", "MMN-051, 2.5 MMDE", "SMM 91075", "1951"},
    {"morris-minor", "MMN-052, 2.5 MMDE", "SMM 91076", "1951"},
    {"morris-minor", "MMN-183, 2.5 MMDE", "SMM 100919", "1951"},
    {"morris-minor", "MMN-184, 2.5 MMDE", "SMM 100920", "1951"},
    {"morris-minor", "2.1 BW4725", "SMM117341", "1951"},
    {"morris-minor", "MMN-108 MMDE", "SMM 124809", "1951"},
    {"morris-minor", "MMN-024, 2.5 POTT", "FBA11/160001", "1952"},
    {"morris-minor", "2.5 MM-PHY", "FCA11/176385", "1953"},
    {"morris-minor", "MMN-023, 2.5 POTT", "FBA11/179839", "1953"},
    {"morris-minor", "MMN-028, 2.5 MINM18", "FLA11/216901", "1953"},
    {"morris-minor", "MMN-028 MINM18", "FLA11/217000", "1953"},
    // Minor Matters 9/2021 page 21: body 678 of a run that began in late 1953, called a car of 1954 by its owner.
    {"morris-minor", "MINM21", "FLB41/229793", "1953-11/1954-12"},
    {"morris-minor", "2.5 TM56", "FLF11/388434", "1956"},
    {"morris-minor", "MMN-024, 2.5 POTT", "FBA11/448714", "1956"},
    {"morris-minor", "MMN-025, 2.5 POTT", "FBA11/448801", "1956"},
    {"morris-minor", "2.7 AU57", "FB51 6/565185", "1957"},
    {"morris-minor", "2.5 BONH59", "M/AT3L 703821", "1959"},
    {"morris-minor", "2.5 BMCX", "M/A2S3 881386", "1960"},
    {"morris-minor", "MMN-027 BMCX", "M/A2S3 1000000", "1960"},
    {"morris-minor", "MMN-027 BMCX", "M/A2S3 1000349", "1960"},
    {"morris-minor", "MMN-176, 2.5 SEATB", "M/A2S3 905000", "1961"},
    {"morris-minor", "2.5 BW5885", "MAT3 914771", "1961"},
    {"morris-minor", "MMN-025, 2.5 POTT", "M/A2S3 990289", "1962"},
    {"morris-minor", "MMN-026, 2.5 POTT", "M/A2S5 990290", "1962"},
    {"morris-minor", "2.5 BW6320", "MA2S5D1252859M", "1969"},
    {"morris-minor", "2.5 BW4436", "MAW5D1280563F", "1970"},
    {"morris-minor", "MMN-026, 2.5 POTT", "MAW5D1294082F", "1971"},
    {"morris-minor", "2.5 CHR60", "OFB4/93435", "1960"},

    // MGB: first and last numbers of the roadster by RIM (2.2), dated anchors (2.3), MGC and V8.
    {"mgb", "MGB-001, 2.2 RIM", "GHN3/101", "1962"},
    {"mgb", "2.3 HH06", "GHN3L/114", "1962"},
    {"mgb", "2.3 EMG6", "GHN3/4514", "1962"},
    {"mgb", "2.3 COUN", "GHN3L/23830", "1963"},
    {"mgb", "2.2 RIM", "GHN3/48766", "1964"},
    {"mgb", "2.2, 2.3 RIM", "GHN3/48767", "1964"},
    {"mgb", "2.3 EMGD", "GHN3/57100", "1965"},
    {"mgb", "2.3 EMGX", "GHN3/65865", "1965"},
    {"mgb", "2.3 EMGT", "GHN3/107465", "1966"},
    {"mgb", "2.3 EMGT", "GHN3/107703", "1966"},
    {"mgb", "2.3 ENG67", "GHD3L/116543", "1967"},
    {"mgb", "2.3 BW1843", "GHN3L/134042", "1967"},
    {"mgb", "MGB-001, 2.2 RIM", "GHN3/138400", "1967"},
    {"mgb", "MGB-002, 2.2 RIM", "GHN4/138401", "1967"},
    {"mgb", "MGB-013 MGCNSD", "GHN4U/138401", "1967"},
    {"mgb", "MGB-002, 2.2 RIM", "GHN4/187209", "1969"},
    {"mgb", "MGB-013 MGCNSD", "GHN4U/187209", "1969"},
    {"mgb", "MGB-003, 2.2 RIM", "GHN5/187210", "1969"},
    {"mgb", "MGB-014 TNPH", "GHN5UA/187210", "1969"},
    {"mgb", "2.2 RIM", "GHN5/219000", "1970"},
    {"mgb", "MGB-014 TNPH", "GHN5UA/219000", "1970"},
    {"mgb", "2.2 RIM", "GHN5/219001", "1970"},
    {"mgb", "MGB-015 TNYR", "GHN5UB/219001", "1970"},
    {"mgb", "2.3 TNYR", "GHN5UB 241164 G", "1971"},
    {"mgb", "2.2 RIM", "GHN5/258000", "1971"},
    {"mgb", "MGB-015 TNYR", "GHN5UB/258000", "1971"},
    {"mgb", "2.2 RIM", "GHN5/258001", "1971"},
    {"mgb", "2.2 RIM", "GHN5/294250", "1972"},
    {"mgb", "2.2 RIM", "GHN5/294251", "1972"},
    {"mgb", "MGB-017 ACH", "GHN5UD/294251", "1972"},
    {"mgb", "2.2 RIM", "GHN5/360300", "1974"},
    {"mgb", "2.2 RIM", "GHN5/360301", "1974"},
    {"mgb", "2.3 TNJU", "GHD5/374858", "1975"},
    {"mgb", "2.3 TNJU", "GHD5/379588", "1975"},
    {"mgb", "2.2 RIM", "GHN5/410000", "1976"},
    {"mgb", "2.2, 2.3 RIM", "GHN5/410001", "1976"},
    {"mgb", "MGB-021 ACH", "GHN5UH/410001", "1976"},
    {"mgb", "MGB-003, 2.2 RIM", "GHN5/501000", "1979"},
    {"mgb", "MGB-004, 2.2 ACH", "GVVDJ2AG501001", "1979"},
    {"mgb", "2.3 THMLE", "GVADJ1AG519157", "1980"},
    {"mgb", "MGB-009, 2.3 BW5683", "G-CN1/111", "1966"},
    {"mgb", "2.3 HHC", "G-CN1/318", "1967-01/1968-02"},  // only its despatch, 12 February 1968, is known
    {"mgb", "2.3 BW3482", "G-CN1/447", "1968"},
    {"mgb", "2.3 BW2667", "G-CD1/2114", "1968"},
    {"mgb", "MGB-010 V8300", "GD2D1-101", "1972-12/1973-01"},
    {"mgb", "2.3 V8ER", "GD2D1-111", "1972-12/1973-01"},
    {"mgb", "MGB-010 V8300", "GD2D1-1956", "1974"},
    {"mgb", "MGB-011 V8300", "GD2D1-2101", "1974"},
    {"mgb", "MGB-011 V8300", "GD2D1-2632", "1975"},
    {"mgb", "MGB-012 V8300", "GD2D1-2701", "1975"},
    {"mgb", "MGB-012 V8300", "GD2D1-2903", "1976"},

    // Willys and Ford light 4x4.
    {"willys-4x4", "WJ-028", "MB 100001", "1941"},
    {"willys-4x4", "WJ-028", "MB 108598", "1941"},
    {"willys-4x4", "WJ-029", "MB 108599", "1942"},
    {"willys-4x4", "WJ-029", "MB 200022", "1942"},
    {"willys-4x4", "WJ-030", "MB 200023", "1943"},
    {"willys-4x4", "WJ-030", "MB 293232", "1943"},
    {"willys-4x4", "WJ-031", "MB 293233", "1944"},
    {"willys-4x4", "WJ-031", "MB 402334", "1944"},
    {"willys-4x4", "WJ-032", "MB 402335", "1945"},
    {"willys-4x4", "WJ-032 FOSTER2", "MB 459841", "1945"},
    {"willys-4x4", "WJ-032 OOC", "MB 459851", "1945"},
    {"willys-4x4", "WJ-033", "GPW 1", "1942"},
    {"willys-4x4", "WJ-033", "GPW 91000", "1942"},
    {"willys-4x4", "WJ-034", "GPW 91001", "1943"},
    {"willys-4x4", "WJ-034", "GPW 171000", "1943"},
    {"willys-4x4", "WJ-035", "GPW 171001", "1944"},
    {"willys-4x4", "WJ-035", "GPW 245000", "1944"},
    {"willys-4x4", "GPW44 (delivered 26 June 1944)", "GPW 208102", "1944-05/1944-07"},
    {"willys-4x4", "WJ-036", "GPW 245001", "1945"},
    {"willys-4x4", "2 SCM45", "GPW 247613", "1945"},
    {"willys-4x4", "2 OCM", "GPW 269934", "1945"},
    {"willys-4x4", "WJ-003 OCM", "GPW 277878", "1945"},
    {"willys-4x4", "WJ-036", "GPW 277896", "1945"},
    {"willys-4x4", "WJ-053", "CJ2A-10001", "1945"},
    {"willys-4x4", "2 FW45", "CJ2A-10163", "1945"},
    {"willys-4x4", "WJ-053", "CJ2A-11824", "1945"},
    {"willys-4x4", "WJ-053 VANORDEN (the number after the last of 1945)", "CJ2A-11825", "1946"},
    {"willys-4x4", "WJ-056", "CJ2A-219588", "1948"},
    {"willys-4x4", "WJ-057", "CJ2A-219589", "1948"},
    {"willys-4x4", "WJ-057", "CJ2A-224760", "1949"},
    {"willys-4x4", "GUERR15 (the change of model 1950)", "CJ3A-43699", "1949-10/1950-12"},
    {"willys-4x4", "GUERR15 (about the end of 1950)", "CJ3A-57214", "1950"},
    {"willys-4x4", "WJ-058", "453-GB1-14542", "1952-10/1953-12"},
    {"willys-4x4", "WJ-059", "453-GB2-10001", "1953"},
    {"willys-4x4", "WJ-060", "OB54-10001", "1953"},
    {"willys-4x4", "WJ-060", "OB54-12600", "1954"},
    {"willys-4x4", "WJ-061", "454-GB2-12001", "1954"},
    {"willys-4x4", "WJ-062", "57348-10001", "1954"},
    {"willys-4x4", "WJ-062", "57348-21157", "1955"},
    {"willys-4x4", "WJ-063", "57448-10001", "1954"},
    {"willys-4x4", "WJ-063", "57448-11366", "1955"},
    {"willys-4x4", "WJ-064", "57548-10001", "1954"},
    {"willys-4x4", "WJ-064", "57548-23232", "1955"},
    {"willys-4x4", "WJ-065", "57648-10001", "1954-10/1955-09"},
    {"willys-4x4", "WJ-068", "57348-23772", "1956"},
    {"willys-4x4", "WJ-069", "57348-45108 S", "1958"},
    {"willys-4x4", "WJ-071", "8305-211000 AA", "1966"},
    {"willys-4x4", "WJ-071", "8305-211999 AA", "1966"},
    {"willys-4x4", "LANCE LANCE12 (delivered 15 January 1943)", "MB 202900", "1943"},
    {"willys-4x4", "WJ-075", "F-100001", "1952"},
    {"willys-4x4", "WJ-075", "F-102135", "1952"},

    // Volkswagen Type 1: model years run from August. A last number that is from memory is left out.
    {"volkswagen-type1", "VT1-073", "1-053814", "1945"},
    {"volkswagen-type1", "VT1-074", "1394119", "1956"},
    {"volkswagen-type1", "7 CALCL", "1277966", "1956"},
    {"volkswagen-type1", "7 REST64", "6307635", "1964"},
    {"volkswagen-type1", "VT1-084", "115000001", "1964-08/1965-07"},
    {"volkswagen-type1", "VT1-085", "116000001", "1965-08/1966-07"},
    {"volkswagen-type1", "VT1-086", "117000001", "1966-08/1967-07"},
    {"volkswagen-type1", "VT1-087", "118000001", "1967-08/1968-07"},
    {"volkswagen-type1", "VT1-088", "119000001", "1968-08/1969-07"},
    {"volkswagen-type1", "VT1-089", "1102000001", "1969-08/1970-07"},
    {"volkswagen-type1", "VT1-090", "1112000001", "1970-08/1971-07"},
    {"volkswagen-type1", "VT1-091", "1122000001", "1971-08/1972-07"},
    {"volkswagen-type1", "VT1-092", "1132000001", "1972-08/1973-07"},
    {"volkswagen-type1", "VT1-093", "1142000001", "1973-08/1974-07"},
    {"volkswagen-type1", "VT1-094", "1152000001", "1974-08/1975-07"},
    {"volkswagen-type1", "VT1-095", "1162000001", "1975-08/1976-07"},
    {"volkswagen-type1", "VT1-096", "1172000001", "1976-08/1977-07"},
    {"volkswagen-type1", "VT1-097", "1182000001", "1977-08/1978-01"},
    {"volkswagen-type1", "VT1-097", "1182034030", "1978"},
    {"volkswagen-type1", "VT1-098", "1592044140", "1980"},
    // São Bernardo: the figure after B is the year (invwaircooledwetrust.blogspot.com, 20 August 2014).
    {"volkswagen-type1", "INVW, figure 2", "B2000001", "1962"},
    {"volkswagen-type1", "INVW, figure 3", "B3000001", "1963"},
    {"volkswagen-type1", "INVW, figure 4", "B4000001", "1964"},
    {"volkswagen-type1", "INVW, figure 5", "B5000001", "1965"},
    {"volkswagen-type1", "INVW, figure 6", "B6000001", "1966"},
    {"volkswagen-type1", "INVW, figure 7", "B7000001", "1967"},
    {"volkswagen-type1", "INVW, figure 8", "B8000001", "1968"},
    {"volkswagen-type1", "INVW, figure 9", "B9000001", "1969"},
};

std::optional<std::size_t> identity_number(const Tables& tables) {
  for (std::size_t n = 0; n < tables.numbers.size(); ++n) {
    if (tables.numbers[n].identity) return n;
  }
  return std::nullopt;
}

NumberVerdict read(const Tables& tables, const std::string& text) {
  NumberRead read;
  read.number = identity_number(tables).value();
  read.text = text;
  read.readings = read_number(text, tables.numbers[read.number].grammars());
  return describe_number(tables, read);
}

/// A pack that is being written may not be there, or have no numbers yet; that it has no errors is for another test to say.
bool has_numbers(const std::string& family) {
  if (!fs::exists(rules_dir() / family / "pack.xml")) return false;
  Diagnostics diagnostics;
  const auto pack = read_pack(rules_dir() / family, diagnostics);
  return pack && std::any_of(pack->numbers.begin(), pack->numbers.end(), [](const Number& n) { return n.identity && !n.ranges.empty(); });
}

}  // namespace

TEST_CASE("Published numbers read back the year they were built in", "[numbers][packs]") {
  for (const std::string family : {"morris-minor", "mgb", "willys-4x4", "volkswagen-type1"}) {
    if (!has_numbers(family)) {
      WARN("pack " << family << " has no ranges of identity numbers");
      continue;
    }
    for (const Case& c : cases) {
      if (c.family != family) continue;
      DYNAMIC_SECTION(family << " " << c.text << ", " << c.row) {
        const NumberVerdict verdict = read(pack(family), c.text);
        INFO(number_note(pack(family), verdict));
        REQUIRE(verdict.window.has_value());
        const Edge year = parse_edge(c.year, nullptr).value();
        INFO(to_words(verdict.window->from) << " to " << to_words(verdict.window->to) << ", published " << to_words(year));
        CHECK(verdict.window->from <= year.last);
        CHECK(verdict.window->to >= year.first);
      }
    }
  }
}
