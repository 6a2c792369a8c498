#include <nlohmann/json.hpp>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "support.hpp"

/// The verbs of `exworks pack` that read, draw and write packs, as a user runs them.
using namespace exworks;
using namespace exworks::test;

namespace {

nlohmann::json json_of(const Run& run) {
  INFO(run.err);
  REQUIRE(run.exit_code == 0);
  CHECK(run.err.empty());
  return nlohmann::json::parse(run.out);
}

std::string quoted(const fs::path& path) { return "'" + path.string() + "'"; }

}  // namespace

TEST_CASE("pack coverage counts what a pack has", "[cli][pack]") {
  const auto c = json_of(test::exworks("pack coverage aldermoor-carrier -n 60 --by-year 5 --json"));
  std::set<std::string> keys;
  for (const auto& [key, value] : c.items()) keys.insert(key);
  for (const std::string key : {"family", "generations", "variants", "features", "facts", "facts_by_source", "later_changes", "number_ranges", "reference_vehicles", "median_window_months", "silent"}) {
    CHECK(keys.count(key) == 1);
  }
  CHECK(c["family"] == "aldermoor-carrier");
  CHECK(c["generations"] == 3);
  CHECK(c["variants"] == 8);
  const auto& sources = c["facts_by_source"];
  CHECK(sources["published"].get<int>() + sources["common_practice"].get<int>() + sources["memory"].get<int>() == c["facts"].get<int>());
  CHECK(c["reference_vehicles"] == 8);
  CHECK(c["median_window_months"].get<double>() > 0);
  // A number that is the vehicle's own narrows the date.
  CHECK(c["median_window_with_number_months"].get<double>() < c["median_window_months"].get<double>());
  // The headlamps changed in the winter of 1958, within Series 2.
  bool dates = false;
  for (const auto& g : c["by_generation"]) {
    for (const auto& y : g["years"]) {
      if (g["generation"] == "s2" && y["year"] == 1958) dates = std::count(y["features"].begin(), y["features"].end(), "headlamp-position") == 1;
    }
  }
  CHECK(dates);
}

TEST_CASE("pack coverage gives the same figures again", "[cli][pack]") {
  const std::string verb = "pack coverage aldermoor-carrier -n 40 --by-year 0 --markdown";
  const Run once = test::exworks(verb);
  CHECK(once.exit_code == 0);
  CHECK(once.out.starts_with("| Aldermoor Carrier | 3 | 8 | "));
  CHECK(test::exworks(verb).out == once.out);
  CHECK(test::exworks("pack coverage").exit_code == 2);
}

TEST_CASE("pack explain lists each source once, with its address, and names the plants as a mechanic would", "[cli][pack]") {
  const Run axle = test::exworks("pack explain axle-date --family willys-4x4");
  CHECK(axle.exit_code == 0);
  const std::string said = fold_space(axle.out);
  const std::string page = "1946 Willys Overland Universal Jeep CJ2A 13396, Van Orden family page, http://users.tellurian.net/vanorden/1946.CJ2A.htm";
  const std::size_t at = said.find(page);
  REQUIRE(at != std::string::npos);
  CHECK(at > said.find(" Sources [1] "));
  CHECK(said.find(page, at + 1) == std::string::npos);
  CHECK(said.find("as standard: not assembled from kits, to between Jan 1942 and Jul 1942, give or take 1 month. [1, 2, 3, 4, 5, 6]") != std::string::npos);
  const Run volts = test::exworks("pack explain voltage --family willys-4x4");
  CHECK(fold_space(volts.out).find("CJ-3B; CJ-5, four-cylinder; and CJ-6, four-cylinder, from between Jan 1956 and Dec 1957") != std::string::npos);
}

TEST_CASE("pack explain says what was right, when and by which source", "[cli][pack]") {
  const Run home = test::exworks("pack explain headlamp-position --family aldermoor-carrier --year 1956 --market home");
  CHECK(home.exit_code == 0);
  CHECK(home.out.find("low, beside the grille") != std::string::npos);
  CHECK(home.out.find("all of them") != std::string::npos);
  CHECK(home.out.find("Service letters 1 to 84") != std::string::npos);
  const auto north = json_of(test::exworks("pack explain headlamp-position --family aldermoor-carrier --year 1957 --market northland --json"));
  for (const auto& value : north["values"]) CHECK(value["share"].get<double>() == Approx(value["id"] == "high" ? 1 : 0));
  CHECK(test::exworks("pack explain headlamp-position --family aldermoor-carrier --year 1901").exit_code == 1);
  const Run wrong = test::exworks("pack explain headlamp-positon --family aldermoor-carrier");
  CHECK(wrong.exit_code == 2);
  CHECK(wrong.err == "pack 'aldermoor-carrier' has no feature 'headlamp-positon'; did you mean 'headlamp-position'?\n");
}

// A3 landscape is 297 mm high (ISO 216); with margins of 12 mm and four columns of 370 units across 396 mm a column holds about 1050 units.
TEST_CASE("a timeline of sixty stamped years runs on in the next column instead of off the page", "[cli][pack]") {
  const TemporaryFolder folder;
  const auto html = folder.path() / "beetle.html";
  REQUIRE(test::exworks("pack timeline volkswagen-type1 -o " + quoted(html)).exit_code == 0);
  const std::string page = read_file(html);
  CHECK(page.find("Year stamped on the speedometer, continued") != std::string::npos);
  CHECK(page.find(">2003<") != std::string::npos);
  const std::string box = "<svg viewBox=\"0 0 370.00 ";
  std::size_t drawings = 0;
  for (std::size_t at = page.find(box); at != std::string::npos; at = page.find(box, at + 1), ++drawings) CHECK(std::stod(page.substr(at + box.size())) < 1050);
  CHECK(drawings > 100);
}

TEST_CASE("pack timeline draws a sheet and a page", "[cli][pack]") {
  TemporaryFolder folder;
  const fs::path svg = folder.path() / "carrier.svg", html = folder.path() / "carrier.html";
  CHECK(test::exworks("pack timeline aldermoor-carrier -o " + quoted(svg)).exit_code == 0);
  CHECK(test::exworks("pack timeline aldermoor-carrier -o " + quoted(html)).exit_code == 0);
  CHECK(test::exworks("pack timeline aldermoor-carrier -o " + quoted(folder.path() / "carrier.png")).exit_code == 2);
  const std::string sheet = read_file(svg), page = read_file(html);
  CHECK(test::exworks("pack timeline aldermoor-carrier").out == sheet);
  for (const std::string& text : {sheet, page}) {
    CHECK(text.find("low, beside the grille") != std::string::npos);
    CHECK(text.find("Northland") != std::string::npos);
    for (const std::string forbidden : {"<script", "<link", "@import", "src="}) CHECK(text.find(forbidden) == std::string::npos);
  }
  const auto bars = json_of(test::exworks("pack timeline aldermoor-carrier --json"));
  for (const auto& f : bars["features"]) {
    if (f["id"] != "headlamp-position") continue;
    CHECK(f["markets"].size() == 2);  // the Northland had its high lamps years before the rest
  }
}

TEST_CASE("pack diff says which verdicts move", "[cli][pack]") {
  TemporaryFolder folder;
  fs::create_directories(folder.path() / "aldermoor-carrier");
  fs::copy(rules_dir() / "common", folder.path() / "common");
  for (const std::string name : {"pack.xml", "features.xml"}) {
    std::string text = read_file(rules_dir() / "aldermoor-carrier" / name);
    for (std::size_t at; (at = text.find("[1958-09..1959-02]")) != std::string::npos;) text.replace(at, 18, "1957-03");
    folder.write("aldermoor-carrier/" + name, text);
  }
  // A van of January 1958 with its lamps on the wing tops: right by the old edition, six months early by the new one.
  folder.write("van.xml", R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20"><vehicle name="van"/><document kind="build-record" built="1958-01"/>
    <observed feature="headlamp-position" value="high"/><observed feature="body-style" value="van"/></inspection>)");
  const std::string vehicle = quoted(folder.path() / "van.xml");
  const auto d = json_of(test::exworks("pack diff " + quoted(folder.path() / "aldermoor-carrier") + " aldermoor-carrier --json --vehicles " + vehicle));
  REQUIRE(d["differences"].size() >= 2);
  CHECK(d["differences"][0]["words"] == "Headlamp position, low, beside the grille: Series 1 and Series 2 (Home market and Southmark) to between Sep 1958 and Feb 1959, was to Mar 1957");
  const auto& moved = d["vehicles"][0]["moved"];
  CHECK(std::any_of(moved.begin(), moved.end(), [](const auto& m) { return m["what"] == "Headlamp position" && m["was"] == "original"; }));
  const auto same = json_of(test::exworks("pack diff aldermoor-carrier aldermoor-carrier --json --vehicles " + vehicle));
  CHECK(same["differences"].empty());
  CHECK(same["vehicles"][0]["moved"].empty());

  // Of a folder, the vehicles of this family: the samples hold a Minor too.
  const std::string samples = quoted(source_dir() / "sample-vehicles");
  const auto all = json_of(test::exworks("pack diff " + quoted(folder.path() / "aldermoor-carrier") + " aldermoor-carrier --json --vehicles " + samples));
  CHECK(all["vehicles"].size() == 5);
  for (const auto& v : all["vehicles"]) CHECK(v["file"].get<std::string>().find("carrier-") != std::string::npos);
  // Without any named, the reference vehicles of the two.
  const auto references = json_of(test::exworks("pack diff " + quoted(folder.path() / "aldermoor-carrier") + " aldermoor-carrier --json"));
  CHECK(references["vehicles"].size() == 8);
}

TEST_CASE("pack diff says so when an edition lacks what an inspection names", "[cli][pack]") {
  TemporaryFolder folder;
  fs::create_directories(folder.path() / "aldermoor-carrier");
  fs::copy(rules_dir() / "common", folder.path() / "common");
  fs::copy_file(rules_dir() / "aldermoor-carrier" / "pack.xml", folder.path() / "aldermoor-carrier" / "pack.xml");
  std::string text = read_file(rules_dir() / "aldermoor-carrier" / "features.xml");
  for (std::size_t at; (at = text.find("\"headlamp-position\"")) != std::string::npos;) text.replace(at, 19, "\"lamp-position\"");
  folder.write("aldermoor-carrier/features.xml", text);
  // A van of January 1958 with its lamps on the wing tops: right by the old edition, six months early by the new one.
  folder.write("van.xml", R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20"><vehicle name="van"/><document kind="build-record" built="1958-01"/>
    <observed feature="headlamp-position" value="high"/><observed feature="body-style" value="van"/></inspection>)");
  const std::string vehicle = quoted(folder.path() / "van.xml");
  const auto d = json_of(test::exworks("pack diff " + quoted(folder.path() / "aldermoor-carrier") + " aldermoor-carrier --json --vehicles " + vehicle));
  REQUIRE(d["vehicles"][0]["moved"].size() == 1);
  CHECK(d["vehicles"][0]["moved"][0]["was"] == "no");
  CHECK(d["vehicles"][0]["moved"][0]["is"] == "yes");
}

TEST_CASE("pack new, from-table and to-table write packs that can be used at once", "[cli][pack]") {
  TemporaryFolder folder;
  const Run made = test::exworks("pack new my-van --in " + quoted(folder.path()) + " --market 'Home market:right' --variant 'Series 1 van=1951-03/1955-06' < /dev/null");
  INFO(made.err);
  CHECK(made.exit_code == 0);
  CHECK(test::exworks("pack check " + quoted(folder.path() / "my-van")).exit_code == 0);
  CHECK(test::exworks("pack new my-van --in " + quoted(folder.path()) + " --market 'Home market:right' --variant 'Series 1 van=1951-03/1955-06' < /dev/null").exit_code == 4);
  CHECK(test::exworks("pack new My_Van --market 'Home market:right' --variant 'A=1951/1952' < /dev/null").exit_code == 2);

  const fs::path csv = folder.path() / "carrier.csv", copy = folder.path() / "copy";
  CHECK(test::exworks("pack to-table aldermoor-carrier -o " + quoted(csv)).exit_code == 0);
  const Run read = test::exworks("pack from-table " + quoted(csv) + " -o " + quoted(copy));
  INFO(read.err);
  CHECK(read.exit_code == 0);
  CHECK(test::exworks("pack to-table " + quoted(copy)).out == read_file(csv));
  CHECK(test::exworks("pack from-table " + quoted(csv) + " -o " + quoted(copy)).exit_code == 4);  // there already
}

TEST_CASE("pack from-table names the row that the pack's own checks object to", "[cli][pack]") {
  TemporaryFolder folder;
  const fs::path csv = folder.write("facts.csv",
                                    "feature,value,variants,markets,from,to,fitted,source\n"
                                    "variant,Van,,,1951,1955,,trade\n"
                                    "Grille,bars,,,,1953-06,standard,trade\n"
                                    "Grille,mesh,,,1953-04,,standard,trade\n");
  const Run run = test::exworks("pack from-table " + quoted(csv) + " -o " + quoted(folder.path() / "van"));
  CHECK(run.exit_code == 3);
  CHECK(run.err.find(csv.string() + ":4:1: standard facts 'bars' and 'mesh' of feature 'grille' are both in force") != std::string::npos);
  CHECK(run.err.find("the other is at " + csv.string() + ":3:1") != std::string::npos);
  CHECK_FALSE(fs::exists(folder.path() / "van"));
}
