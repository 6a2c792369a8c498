#include "law/requirements.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>

#include "base/file.hpp"
#include "numbers/date_codes.hpp"
#include "support.hpp"

/// The dated requirements of the tree against the research dossier; each check names its row.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::vector<Requirements>& markets() {
  static const std::vector<Requirements> all = [] {
    Diagnostics d;
    auto read = read_requirements_folder(rules_dir() / "market", d);
    INFO(messages(d));
    REQUIRE_FALSE(d.has_errors());
    return read;
  }();
  return all;
}

/// How the row stands to the build; nothing when it does not meet it.
std::optional<Applicable> row(const std::string& id, const std::string& country, const std::string& vehicle_class, int year, int month) {
  for (const Applicable& a : applicable(markets(), country, vehicle_class, Month::of(year, month))) {
    if (a.requirement->id == id) return a;
  }
  return std::nullopt;
}

std::string standing(const std::string& id, const std::string& country, const std::string& vehicle_class, int year, int month) {
  const auto a = row(id, country, vehicle_class, year, month);
  if (!a) return "no";
  const std::string hard = a->hard ? " hard" : "";
  return (a->standing == Standing::in_force ? "in force" : a->standing == Standing::may_be_in_force ? "may be" : "in use") + hard;
}

bool says(const std::optional<Applicable>& a, const std::string& words) { return a && a->caution.find(words) != std::string::npos; }

/// `<requirements>` around these lines; the errors.
std::string errors_of(const std::string& lines) {
  Diagnostics d;
  const std::string text = "<requirements format=\"1\" id=\"xx\" name=\"Trial\" country=\"XX\">\n<source id=\"A\" kind=\"published\" title=\"T\" publisher=\"P\" year=\"1970\"/>\n" +
                           lines + "\n</requirements>";
  const auto read = read_requirements(text, "trial.xml", d);
  CHECK(read.has_value() == !d.has_errors());
  return messages(d);
}

std::string requirement(const std::string& attributes, const std::string& text = "Asks for it.") {
  return "<requirement id=\"X-1\" basis=\"manufactured\" strength=\"must\" feature=\"it\" " + attributes + ">" + text + "</requirement>";
}

}  // namespace

TEST_CASE("The files of requirements follow their schema", "[requirements]") {
  if (std::system("command -v xmllint >/dev/null 2>&1") != 0) {
    WARN("SKIPPED: xmllint is not installed (Debian package libxml2-utils)");
    return;
  }
  for (const auto& e : fs::directory_iterator(rules_dir() / "market")) {
    INFO(e.path());
    CHECK(std::system(("xmllint --noout --relaxng '" + (rules_dir() / "schema/requirements.rng").string() + "' '" + e.path().string() + "' >/dev/null 2>&1").c_str()) == 0);
  }
}

TEST_CASE("The files of requirements are whole, and every source is cited", "[requirements]") {
  Diagnostics d;
  const auto all = read_requirements_folder(rules_dir() / "market", d);
  INFO(messages(d));
  CHECK(d.all().empty());
  std::map<std::string, std::size_t> rows;
  for (const Requirements& m : all) {
    rows[m.country] = m.rows.size();
    for (const Requirement& r : m.rows) {
      INFO(r.id);
      CHECK_FALSE(r.sources.empty());
      CHECK_FALSE(r.classes.empty());
      CHECK_FALSE(r.text.empty());
    }
  }
  // Rows of the dossier: GB 104 and the Northern Irish one, US 52 and the six of the number rules, AU 52.
  CHECK(rows == std::map<std::string, std::size_t>{{"AU", 52}, {"GB", 105}, {"US", 58}});
  CHECK_THROWS_AS(read_requirements_folder(rules_dir() / "no-such-folder", d), FileError);
}

TEST_CASE("British rows go by first use, with six months of stock either side", "[requirements]") {
  // GB-004: two stop lamps, first used from 1 January 1971
  CHECK(standing("GB-004", "GB", "car", 1970, 6) == "no");
  CHECK(standing("GB-004", "GB", "car", 1970, 7) == "may be");
  CHECK(standing("GB-004", "GB", "car", 1971, 6) == "may be");
  CHECK(standing("GB-004", "GB", "car", 1971, 7) == "in force hard");
  CHECK(standing("GB-004", "GB", "motorcycle", 1975, 1) == "no");
  CHECK(says(row("GB-004", "GB", "car", 1971, 7), "first registration"));
  CHECK(says(row("GB-004", "GB", "car", 1971, 7), "six months"));
  // GB-005: one stop lamp, today's duty for 1936 to 1970; it may have been missing when new
  CHECK(standing("GB-005", "GB", "car", 1955, 1) == "in use");
  CHECK(says(row("GB-005", "GB", "car", 1955, 1), "may have been missing when new"));
  CHECK(standing("GB-005", "GB", "car", 1972, 1) == "no");
  // GB-002: semaphore arms and red rear flashers not on a new vehicle from 1 September 1965
  CHECK(standing("GB-002", "GB", "car", 1966, 3) == "in force hard");
  CHECK(row("GB-002", "GB", "car", 1966, 3)->requirement->strength == Strength::must_not);
  CHECK(standing("GB-002", "GB", "car", 1960, 3) == "no");
  // GB-003: a retrofit duty meets older vehicles only
  CHECK(standing("GB-003", "GB", "car", 1955, 1) == "in use");
  CHECK(says(row("GB-003", "GB", "car", 1955, 1), "proves nothing"));
  CHECK(standing("GB-003", "GB", "car", 1975, 1) == "no");
  // GB-010: dim-dip; the dossier says that its absence is no proof
  CHECK(standing("GB-010", "GB", "car", 1990, 1) == "in force");
  // GB-020 and GB-021: anchorages, cars from 1965, goods vehicles from April 1967
  CHECK(standing("GB-020", "GB", "car", 1966, 1) == "in force hard");
  CHECK(standing("GB-020", "GB", "light-goods", 1966, 1) == "no");
  CHECK(standing("GB-021", "GB", "light-goods", 1968, 1) == "in force hard");
  // GB-025: sources disagree, so never hard
  CHECK(says(row("GB-025", "GB", "car", 1970, 1), "sources disagree"));
  CHECK_FALSE(row("GB-025", "GB", "car", 1970, 1)->hard);
  // GB-041: a duty without a date says nothing of the vehicle when new
  CHECK(standing("GB-041", "GB", "car", 1925, 1) == "in use");
  // GB-044: washers, one source
  CHECK(standing("GB-044", "GB", "car", 1975, 1) == "in force");
  CHECK(says(row("GB-044", "GB", "car", 1975, 1), "One secondary source"));
  // GB-034: read for Northern Ireland
  CHECK(standing("GB-034", "GB", "car", 1975, 1) == "may be");
  CHECK(standing("GB-034", "GB-NI", "car", 1975, 1) == "in force hard");
  // GB-081: the test exemption counts vehicles on the road
  CHECK(standing("GB-081", "GB", "car", 1950, 1) == "in use");
  CHECK(standing("GB-081", "GB", "heavy-goods", 1950, 1) == "no");
}

TEST_CASE("United States rows go by the day of manufacture, or by model year", "[requirements]") {
  // US-008: head restraints from 1 January 1969, cars; US-009: light trucks from 1 September 1991
  CHECK(standing("US-008", "US", "car", 1968, 12) == "no");
  CHECK(standing("US-008", "US", "car", 1969, 1) == "in force hard");
  CHECK(standing("US-008", "US", "light-goods", 1975, 1) == "no");
  CHECK(standing("US-009", "US", "light-goods", 1991, 9) == "in force hard");
  // US-026: interlock 15 August 1973 to 28 October 1974; the first and last month are not whole
  CHECK(standing("US-026", "US", "car", 1973, 7) == "no");
  CHECK(standing("US-026", "US", "car", 1973, 8) == "may be");
  CHECK(standing("US-026", "US", "car", 1974, 9) == "in force");
  CHECK(standing("US-026", "US", "car", 1974, 10) == "may be");
  CHECK(standing("US-026", "US", "car", 1974, 11) == "no");
  // US-005, US-006: third stop lamp allowed August 1984, must from September 1985
  CHECK(standing("US-006", "US", "car", 1985, 8) == "in force");
  CHECK(standing("US-006", "US", "car", 1985, 9) == "no");
  CHECK(standing("US-005", "US", "car", 1985, 9) == "in force hard");
  // US-033: model year 1974 begins in the summer of 1973
  CHECK(standing("US-033", "US", "car", 1973, 7) == "no");
  CHECK(standing("US-033", "US", "car", 1973, 8) == "may be");
  CHECK(standing("US-033", "US", "car", 1974, 1) == "in force");  // lowered later: nothing is held against a bumper
  CHECK(says(row("US-033", "US", "car", 1973, 8), "model years"));
  // US-020: one source
  CHECK(standing("US-020", "US", "car", 1985, 1) == "in force");
  // US-013: the date is remembered: never hard
  CHECK(standing("US-013", "US", "car", 1970, 1) == "in force");
  CHECK(says(row("US-013", "US", "car", 1970, 1), "never use it as a hard rule"));
  // US-049: California; nothing to be seen, so never hard
  CHECK(standing("US-049", "US", "car", 1971, 1) == "may be");
  CHECK(standing("US-049", "US-CA", "car", 1971, 1) == "in force");
  CHECK(standing("US-049", "US-NY", "car", 1971, 1) == "no");
  CHECK(standing("US-008", "US-CA", "car", 1971, 1) == "in force hard");
  // US-019: 17 characters from September 1980; US-052: nothing of it binds vehicles sold to the armed forces
  CHECK(standing("US-019", "US", "car", 1980, 8) == "no");
  CHECK(standing("US-019", "US", "car", 1980, 9) == "in force hard");
  CHECK(standing("US-019", "US", "forces", 1985, 1) == "no");
  CHECK(standing("US-052", "US", "forces", 1970, 1) == "in force");
  for (const Applicable& a : applicable(markets(), "US", "forces", Month::of(1970, 1))) CHECK_FALSE(a.hard);
  // US-050: catalyst cars only: our class is wider, so nothing is held against a part
  CHECK(standing("US-050", "US", "car", 1976, 1) == "in force");
}

TEST_CASE("Australian rows", "[requirements]") {
  // AU-001, AU-006: cars from 1969, off-road passenger vehicles from 1970; dates of one state
  CHECK(standing("AU-001", "AU", "car", 1968, 12) == "no");
  CHECK(standing("AU-001", "AU", "car", 1969, 1) == "in force");
  CHECK(standing("AU-006", "AU", "mpv", 1969, 6) == "no");
  CHECK(standing("AU-006", "AU", "mpv", 1970, 1) == "in force");
  // AU-013: South Australia, first registered after 30 June 1964, to the end of 1968
  CHECK(standing("AU-013", "AU-SA", "car", 1966, 1) == "in force hard");
  CHECK(standing("AU-013", "AU", "car", 1966, 1) == "may be");
  CHECK(standing("AU-013", "AU-NSW", "car", 1966, 1) == "no");
  // AU-033: 17 characters from July 1988
  CHECK(standing("AU-033", "AU", "car", 1988, 6) == "no");
  CHECK(standing("AU-033", "AU", "car", 1988, 7) == "in force hard");
  // AU-035: red rear indicators allowed on vehicles built before July 1973, New South Wales; one source
  CHECK(standing("AU-035", "AU-NSW", "car", 1973, 6) == "no");
  CHECK(standing("AU-035", "AU-NSW", "car", 1973, 7) == "in force");
  // AU-040 to AU-053 are remembered
  for (const Requirements& m : markets()) {
    for (const Requirement& r : m.rows) {
      if (r.id >= "AU-040" && r.id <= "AU-053") CHECK(r.certainty == Certainty::memory);
    }
  }
}

TEST_CASE("A row that is remembered, disputed or has one source is never hard", "[requirements]") {
  for (const char* country : {"GB", "US-CA", "AU-WA"}) {
    for (int year = 1920; year <= 2020; year += 3) {
      for (const Applicable& a : applicable(markets(), country, "car", Month::of(year, 5))) {
        if (a.hard) CHECK(a.requirement->certainty == Certainty::published);
        if (a.requirement->basis == Basis::first_used && !a.requirement->counts_in_use) CHECK(a.caution.find("first use") != std::string::npos);
      }
    }
  }
  CHECK(applicable(markets(), "FR", "car", Month::of(1970, 1)).empty());
}

TEST_CASE("The reader of registration marks and the rows GB-S and GB-P hold the same windows", "[requirements]") {
  int letters = 0;
  for (const Requirements& m : markets()) {
    for (const Requirement& r : m.rows) {
      const bool suffix = r.id.rfind("GB-S", 0) == 0, prefix = r.id.rfind("GB-P", 0) == 0;
      if (!suffix && !prefix) continue;
      ++letters;
      INFO(r.id << " " << r.feature);
      const auto open = r.feature.find('('), close = r.feature.find(')');
      REQUIRE(close != std::string::npos);
      const CodeReading read = read_gb_mark(r.feature.substr(open + 1, close - open - 1));
      REQUIRE(read.candidates.size() == 1);
      CHECK(read.candidates[0].first == day_of(r.from->month.year(), r.from->month.month(), r.from->day));
      CHECK(read.candidates[0].last == day_of(r.to->month.year(), r.to->month.month(), r.to->day));
    }
  }
  CHECK(letters == 42);
}

TEST_CASE("Mistakes in a file of requirements are told at their place", "[requirements]") {
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"published\"")).empty());
  CHECK(errors_of(requirement("class=\"cars\" source=\"A\" certainty=\"published\"")).find("trial.xml:3:73: there is no class 'cars'; did you mean 'car'?") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"B\" certainty=\"published\"")).find("there is no source 'B'") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"memory\"")).find("only remembered") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"published\" from=\"1970\"")).find("'1970' is no day") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"published\" from=\"1970-02-01\" to=\"1970-01-01\"")).find("ends before it begins") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"sure\"")).find("'sure' can't be 'certainty'") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\"")).find("needs the attribute 'certainty'") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"published\" colour=\"red\"")).find("has no attribute 'colour'") != std::string::npos);
  CHECK(errors_of(requirement("class=\"car\" source=\"A\" certainty=\"published\"", "")).find("says nothing") != std::string::npos);
  const std::string good = requirement("class=\"car\" source=\"A\" certainty=\"published\"");
  CHECK(errors_of(good + "\n" + good).find("requirement 'X-1' is given twice") != std::string::npos);
  CHECK(errors_of("<requirment/>").find("did you mean 'requirement'?") != std::string::npos);
  Diagnostics d;
  CHECK_FALSE(read_requirements("<pack/>", "p.xml", d));
  CHECK_FALSE(read_requirements("<requirements format=\"2\" id=\"x\" name=\"X\" country=\"XX\"/>", "p.xml", d));
  CHECK(d.error_count() == 2);
}
