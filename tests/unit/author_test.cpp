#include "author/csv.hpp"
#include "author/fact_table.hpp"
#include "author/new_pack.hpp"
#include "author/pack_diff.hpp"
#include "base/file.hpp"
#include "support.hpp"

/// Packs written from tables and back, new packs, and what two editions say otherwise.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string table =
    "feature,value,variants,markets,from,to,fitted,source\n"
    "market,Home market,,,,,,\n"
    "market,north: The Northland,,,,,,\n"
    "variant,Series 1 van,,,1951-03,1955-06,,Parts list | Aldermoor Works (invented) | 1957\n"
    "variant,s2: Series 2: the van,,home-market,1955-07,[1961-01..1961-03],,Parts list | Aldermoor Works (invented) | 1957\n"
    "Headlamp position,\"low, beside the grille\",series-1-van,,,,standard,Parts list | Aldermoor Works (invented) | 1957\n"
    "Headlamp position,\"low, beside the grille\",s2,,,1958-24,standard,Parts list | Aldermoor Works (invented) | 1957; Letters \\; notes \\| more | Aldermoor Works (invented) | 1966\n"
    "Headlamp position,\"the \"\"high\"\" ones\",s2,home-market,1958-24,,standard 0.75,trade\n"
    "Heater,none,,,,,standard,trade\n"
    "Heater,fitted,,,1953,,option 0.2,memory\n"
    "Heater,by hand,,north,195X,,dealer 0.05,\"Web page | A club, abroad (invented) | https://example.org/heater\"\n";

std::string mistakes(const std::string& csv) {
  Diagnostics diagnostics;
  pack_from_table(csv, "facts.csv", "trial", "Trial", diagnostics);
  return messages(diagnostics);
}

/// The table with its n-th line (from 1) replaced.
std::string with_line(int n, const std::string& line) {
  std::string out;
  int at = 1;
  for (std::size_t i = 0; i < table.size(); ++at) {
    const std::size_t end = table.find('\n', i);
    out += (at == n ? line : table.substr(i, end - i)) + "\n";
    i = end + 1;
  }
  return out;
}

Pack pack_of(const std::string& xml) {
  TemporaryFolder folder;
  folder.write("trial/pack.xml", xml);
  Diagnostics diagnostics;
  auto pack = read_pack(folder.path() / "trial", diagnostics);
  if (pack) check_pack(*pack, diagnostics);
  INFO(messages(diagnostics));
  REQUIRE(pack.has_value());
  REQUIRE_FALSE(diagnostics.has_errors());
  return *pack;
}

Pack pack_of_table(const std::string& csv) {
  Diagnostics diagnostics;
  const TablePack made = pack_from_table(csv, "facts.csv", "trial", "Trial", diagnostics);
  INFO(messages(diagnostics));
  REQUIRE_FALSE(diagnostics.has_errors());
  return pack_of(made.xml);
}

}  // namespace

TEST_CASE("A table makes a pack that makes the same table", "[author]") {
  std::vector<std::string> lost;
  CHECK(table_from_pack(pack_of_table(table), &lost) == table);
  CHECK(lost.empty());
}

TEST_CASE("The table of every pack in the tree goes round", "[author][packs]") {
  for (const auto& folder : pack_folders({rules_dir()})) {
    DYNAMIC_SECTION(folder.filename().string()) {
      Diagnostics diagnostics;
      const auto pack = read_pack(folder, diagnostics);
      if (!pack) continue;  // that a pack has no errors is for another test to say
      std::vector<std::string> lost;
      const std::string csv = table_from_pack(*pack, &lost);
      const TablePack made = pack_from_table(csv, "facts.csv", "trial", "Trial", diagnostics);
      INFO(messages(diagnostics));
      REQUIRE_FALSE(diagnostics.has_errors());
      TemporaryFolder again;
      again.write("trial/pack.xml", made.xml);
      const auto back = read_pack(again.path() / "trial", diagnostics);
      INFO(messages(diagnostics));
      REQUIRE(back.has_value());
      CHECK(table_from_pack(*back, nullptr) == csv);
    }
  }
}

TEST_CASE("What a spreadsheet may do to a table is no mistake", "[author]") {
  std::string windows = "\xEF\xBB\xBF";
  for (char c : table) windows += c == '\n' ? "\r\n" : std::string(1, c);
  CHECK(table_from_pack(pack_of_table(windows + "\r\n"), nullptr) == table);
}

TEST_CASE("Every mistake in a table has its line, its column and a remedy", "[author]") {
  struct Mistake {
    std::string csv, message;
  };
  const std::vector<Mistake> all{
      {"", "facts.csv:1:1: the table is empty; begin it with the line feature,value,variants,markets,from,to,fitted,source"},
      {"feature;value;variants;markets;from;to;fitted;source\n", "facts.csv:1:1: the cells are divided by semicolons; save the table as CSV with commas"},
      {with_line(1, "feature,valeu,variants,markets,from,to,fitted,source"), "facts.csv:1:9: the head of column 2 is not 'value'; the first line must be feature,value,variants,markets,from,to,fitted,source"},
      {with_line(9, "Heater,none,,,,standard,trade"), "facts.csv:9:1: this row has 7 cells instead of 8; write one cell for each column of the first line; text with a comma stands in quotes"},
      {with_line(9, ",none,,,,,standard,trade"), "facts.csv:9:1: the feature is empty; write the name of the feature"},
      {with_line(9, "Heater,,,,,,standard,trade"), "facts.csv:9:8: the value is empty; write the name of the value"},
      {with_line(9, "Heater,none,,,1953-13,,standard,trade"), "facts.csv:9:15: '1953-13' is no date; a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]"},
      {with_line(9, "Heater,none,,,,,usual,trade"), "facts.csv:9:17: 'usual' doesn't say how it was fitted; write standard, option 0.2 or dealer 0.1"},
      {with_line(9, "Heater,none,,,,,option,trade"), "facts.csv:9:17: how many had this option is missing; write option 0.2 for one vehicle in five"},
      {with_line(9, "Heater,none,,,,,option 20,trade"), "facts.csv:9:17: '20' is no share; write a figure above 0 and up to 1, such as 0.2 for one vehicle in five"},
      {with_line(9, "Heater,none,,,,,standard,"), "facts.csv:9:26: the source is empty; write title | publisher | year, or trade, or memory"},
      {with_line(9, "Heater,none,,,,,standard,Parts list"), "facts.csv:9:26: 'Parts list' doesn't say who published it and when; write title | publisher | year or URL; or trade, or memory"},
      {with_line(5, "variant,Series 1 van,,,1955-07,1961-02,,trade"), "facts.csv:5:9: variant 'series-1-van' has a row already, in line 4; give this one another name"},
      {with_line(4, "variant,Series 1 van,,,,1955-06,,trade"), "facts.csv:4:24: variant 'series-1-van' has no window; write its first and last month in from and to"},
      {with_line(10, "heater,fitted,,,1953,,option 0.2,memory"), "facts.csv:10:1: feature 'heater' is called 'Heater' in line 9; write the same name in every row"},
      {with_line(11, "Heater,by hand,,,,,standard,\"trade"), "facts.csv:11:29: this cell's quote is never closed; add a quote at the end of the cell"},
      {with_line(9, "Heater,no\"ne,,,,,standard,trade"), "facts.csv:9:10: a quote inside a cell that doesn't begin with one; put the whole cell in quotes and double this one"},
      {with_line(9, "Heater,\"none\"x,,,,,standard,trade"), "facts.csv:9:14: text follows the closing quote of a cell; double the quotes inside a cell, or put a comma here"},
      {with_line(9, "Heater,n\xFFne,,,,,standard,trade"), "facts.csv:9:9: this byte is no UTF-8 text; save the table as CSV in UTF-8"},
  };
  for (const Mistake& m : all) {
    DYNAMIC_SECTION(m.message) { CHECK(mistakes(m.csv).find(m.message) != std::string::npos); }
  }
}

TEST_CASE("Dates of a table are written as the format has them", "[author]") {
  for (const std::string text : {"1951-01", "1951", "195X", "1951-21", "1951-22", "1951-23", "1951-24", "[1950-10..1951-01]", ".."}) {
    CHECK(edge_text(parse_edge(text, nullptr).value()) == text);
  }
  CHECK(edge_text(parse_edge("1951-01~", nullptr).value()) == "[1950-11..1951-03]");
}

TEST_CASE("A new pack has no mistakes", "[author]") {
  const NewPack wanted{"trial", "Trial & -- more", {{"Home <market>", "right"}, {"Abroad", "left"}}, {{"First \"van\"", "1950", "1955-06"}, {"Second", "1955-07", "1960"}}};
  const Pack pack = pack_of(new_pack_text(wanted));
  CHECK(pack.name == "Trial & -- more");
  CHECK(pack.variants.size() == 2);
  CHECK(pack.features.size() == 1);
}

TEST_CASE("Two editions differ in the trade's words", "[author]") {
  const Pack before = pack_of_table(table);
  CHECK(pack_differences(before, before).empty());
  std::string later = with_line(8, "Headlamp position,\"the \"\"high\"\" ones\",s2,home-market,1957-03,,standard 0.75,trade");
  const auto moved = pack_differences(before, pack_of_table(later));
  REQUIRE(moved.size() == 1);
  CHECK(moved[0].kind == "changed");
  CHECK(moved[0].id == "headlamp-position");
  CHECK(moved[0].words == "Headlamp position, the \"high\" ones: Series 2: the van; Home market from Mar 1957, was from between Dec 1958 and Feb 1959");
  const auto gone = pack_differences(before, pack_of_table(with_line(11, "Radio,none,,,,,standard,trade")));
  REQUIRE(gone.size() == 3);
  CHECK(gone[0].words == "New feature: Radio");
  CHECK(gone[1].words == "Heater: no longer a value, by hand");
  CHECK(gone[2].kind == "removed");
}
