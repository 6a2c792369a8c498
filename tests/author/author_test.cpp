#include "author/csv.hpp"
#include "author/fact_table.hpp"
#include "author/new_pack.hpp"
#include "author/pack_diff.hpp"
#include "author/upgrade.hpp"
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
  CHECK(moved[0].words == "Headlamp position, the \"high\" ones: Series 2: the van (Home market) from Mar 1957, was from between Dec 1958 and Feb 1959");
  const auto gone = pack_differences(before, pack_of_table(with_line(11, "Radio,none,,,,,standard,trade")));
  REQUIRE(gone.size() == 4);
  CHECK(gone[0].words == "No longer a source: Web page, A club, abroad (invented)");
  CHECK(gone[1].words == "New feature: Radio");
  CHECK(gone[2].words == "Heater: no longer a value, by hand");
  CHECK(gone[3].kind == "removed");
}

TEST_CASE("What an inspector or a workshop would do otherwise is a difference too", "[author]") {
  const std::string text = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
<source id="BOOK" kind="published" title="Parts list" publisher="Works" year="1957"/> <place id="front" name="Front"/>
<market id="home" name="Home"/> <plant id="works" name="Works" kit="no"/> <generation id="one" name="Series 1"/> <body id="van" name="van"/>
<variant id="one-van" name="Series 1 van" generation="one" body="van" from="1951-01" to="1954-12" units="900" source="BOOK"/>
<feature id="lamps" name="Lamps" place="front" weight="5">
  <value id="low" name="low">Beside the grille.</value> <value id="high" name="high">On the wings.</value>
  <fact value="low" source="BOOK"/>
  <later id="raised" value="high" name="lamps raised" hours="8" source="BOOK">Patches.</later>
</feature>
</pack>)";
  struct Edit {
    std::string was, is, words;
  };
  const std::vector<Edit> edits{
      {"hours=\"8\"", "hours=\"12\"", "lamps raised: hours to put back '12', was '8'"},
      {"Patches.", "Patches in the wings.", "lamps raised: how to tell 'Patches in the wings.', was 'Patches.'"},
      {"weight=\"5\"", "weight=\"2\"", "Lamps: weight in the score '2', was '5'"},
      {"On the wings.", "", "Lamps, high: how to tell not said, was 'On the wings.'"},
      {"units=\"900\"", "units=\"950\"", "Series 1 van: number built '950', was '900'"},
      {"to=\"1954-12\"", "to=\"1955-02\"", "Series 1 van: built 'from Jan 1951 to Feb 1955', was 'from Jan 1951 to Dec 1954'"},
      {"kit=\"no\"", "kit=\"yes\"", "Works: assembled from kits 'yes', was 'no'"},
  };
  for (const Edit& e : edits) {
    std::string edited = text;
    edited.replace(edited.find(e.was), e.was.size(), e.is);
    const auto found = pack_differences(pack_of(text), pack_of(edited));
    REQUIRE(found.size() == 1);
    CHECK(found[0].words == e.words);
  }
  // Another id for the same source says nothing new.
  std::string renamed = text;
  for (std::size_t at = renamed.find("BOOK"); at != std::string::npos; at = renamed.find("BOOK")) renamed.replace(at, 4, "s1");
  CHECK(pack_differences(pack_of(text), pack_of(renamed)).empty());
}

TEST_CASE("A file of format 1 is rewritten in place: what means nothing any more goes, comments stay", "[author][upgrade]") {
  const Upgraded out = upgraded_pack_file(R"(<?xml version="1.0"?>
<!-- <feature id="old" slip="0.5"> format="1" -->
<pack format='1' id="van">
  <rates sure="0.02" altered="0.05" look-alike="0.1" source="trade"/>
  <feature id="lamps" slip="0.001" name="slip=&quot;1&quot;"><value id="a" name="A > B" /></feature>
</pack>
)");
  CHECK(out.rewritten);
  CHECK(out.dropped == std::vector<std::string>{R"(sure="0.02")", R"(look-alike="0.1")", R"(slip="0.001")"});
  CHECK(out.text == R"(<?xml version="1.0"?>
<!-- <feature id="old" slip="0.5"> format="1" -->
<pack format='2' id="van">
  <rates altered="0.05" source="trade"/>
  <feature id="lamps" name="slip=&quot;1&quot;"><value id="a" name="A > B" /></feature>
</pack>
)");
  CHECK(upgraded_pack_file(out.text).text == out.text);
  CHECK_FALSE(upgraded_pack_file(out.text).rewritten);
  const std::string inspection = "<inspection format=\"1\"><observed feature=\"lamps\" value=\"a\"/></inspection>";
  CHECK(upgraded_pack_file(inspection).text == inspection);
}
