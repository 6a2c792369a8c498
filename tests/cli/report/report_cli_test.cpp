#include <cstdlib>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/text.hpp"
#include "support.hpp"

using namespace exworks;
using namespace exworks::test;

namespace {

const std::string morris = (source_dir() / "sample-vehicles" / "morris-minor-1950-saloon.xml").string();

bool installed(const std::string& program) { return std::system(("command -v " + program + " >/dev/null 2>&1").c_str()) == 0; }

}  // namespace

TEST_CASE("report writes HTML and text, and never over a file without being told") {
  const TemporaryFolder folder;
  const std::string out = (folder.path() / "r.html").string();
  const Run first = exworks::test::exworks("report " + morris + " --date 2026-11-25 -o " + out);
  CHECK(first.exit_code == 0);
  CHECK(first.out.empty());
  CHECK(first.err.empty());
  CHECK(read_file(out).starts_with("<!DOCTYPE html>"));
  const Run second = exworks::test::exworks("report " + morris + " -o " + out);
  CHECK(second.exit_code == 4);
  CHECK(second.err.find("--overwrite") != std::string::npos);
  CHECK(exworks::test::exworks("report " + morris + " -o " + out + " --overwrite --date 2026-11-25 --json").exit_code == 0);
  const Run text = exworks::test::exworks("report " + morris + " --kind intake --date 2026-11-25 --json -o " + (folder.path() / "r.txt").string());
  CHECK(text.exit_code == 0);
  CHECK(nlohmann::json::parse(text.out)["kind"] == "intake");
  CHECK(read_file(folder.path() / "r.txt").starts_with("Intake report"));
}

TEST_CASE("report takes photos in from beside the inspection, and from nowhere else") {
  const TemporaryFolder folder;
  folder.write("real.png", std::string("\x89PNG\r\n\x1a\n", 8) + "x");
  folder.write("text.jpg", "secret");
  const auto file = folder.write("i.xml", R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20"><vehicle name="A van"/>
    <observed feature="grille" state="missing" photo="real.png"/><observed feature="steering-side" value="right" photo="text.jpg"/>
    <observed feature="gear-lever" state="missing" photo="../../../etc/passwd"/></inspection>)");
  const Run run = exworks::test::exworks("report " + file.string() + " --date 2026-11-25 -o " + (folder.path() / "r.html").string());
  INFO(run.err);
  REQUIRE(run.exit_code == 0);
  const std::string html = read_file(folder.path() / "r.html");
  CHECK(html.find("data:image/png;base64,iVBORw0KGgp4") != std::string::npos);
  CHECK(html.find("c2VjcmV0") == std::string::npos);
  CHECK(run.err.find("neither JPEG nor PNG") != std::string::npos);
  CHECK(run.err.find("outside the inspection's folder") != std::string::npos);
}

TEST_CASE("report refuses what it can't do, and says what to do") {
  const TemporaryFolder folder;
  const Run ending = exworks::test::exworks("report " + morris + " -o r.doc");
  CHECK(ending.exit_code == 4);
  CHECK(ending.err.find(".html, .pdf nor .txt") != std::string::npos);
  CHECK(exworks::test::exworks("report " + morris + " --kind other -o r.html").exit_code == 2);
  CHECK(exworks::test::exworks("report " + morris + " --date tomorrow -o " + (folder.path() / "r.html").string()).exit_code == 2);
  const auto sales = folder.write("sales.csv", "date,price\n");
  const Run bad = exworks::test::exworks("report " + morris + " --kind owner --sales " + sales.string() + " -o " + (folder.path() / "r.html").string());
  CHECK(bad.exit_code == 3);
  CHECK(bad.err.find("sales.csv:1") != std::string::npos);
  CHECK_FALSE(fs::exists(folder.path() / "r.html"));
}

TEST_CASE("the owner's note on value is a note, with every weight") {
  const TemporaryFolder folder;
  const auto sales = folder.write("sales.csv", "date,price,currency,year,variant,condition,originality,note\n2026-05,6500,GBP,1950,mm-2dr,2,80,auction\n2025-11,5200,GBP,1951,mm-2dr,3,60,\n");
  const std::string out = (folder.path() / "r.txt").string();
  const Run run = exworks::test::exworks("report " + morris + " --kind owner --sales " + sales.string() + " --condition 3 --trend 2 --rate 60 --date 2026-11-25 -o " + out);
  INFO(run.err);
  REQUIRE(run.exit_code == 0);
  const std::string text = fold_space(read_file(out));  // its lines are wrapped
  // 140 hours for the engine and gearbox that came as one (rules/morris-minor/assemblies.xml), 60 each.
  for (const char* part : {"not a valuation", "must not be relied on for", "only the range is given", "GBP 6,500", "GBP 8,400", "Weight", "Nadaraya"}) {
    INFO(part);
    CHECK(text.find(part) != std::string::npos);
  }
}

TEST_CASE("report in American English swaps the pack's words, takes letter paper and leaves notes alone") {
  const TemporaryFolder folder;
  const std::string out = (folder.path() / "r.html").string();
  REQUIRE(exworks::test::exworks("report " + morris + " --kind intake --terms en-US --date 2026-11-25 -o " + out).exit_code == 0);
  const std::string html = read_file(out);
  CHECK(html.find("<html lang=\"en-US\">") != std::string::npos);
  CHECK(html.find("size:letter") != std::string::npos);
  CHECK(html.find("Headlight position") != std::string::npos);
  CHECK(html.find("November 25, 2026") != std::string::npos);
  CHECK(html.find("No reservoir under the bonnet.") != std::string::npos);
}

TEST_CASE("report makes PDFs, the same bytes again, or says that weasyprint is missing") {
  const TemporaryFolder folder;
  const std::string out = (folder.path() / "r.pdf").string();
  const Run run = exworks::test::exworks("report " + morris + " --date 2026-11-25 -o " + out);
  if (!installed("weasyprint")) {
    WARN("weasyprint is not installed: only its absence is tested");
    CHECK(run.exit_code == 4);
    CHECK(run.err.find("apt-get install weasyprint") != std::string::npos);
    return;
  }
  INFO(run.err);
  REQUIRE(run.exit_code == 0);
  const std::string first = read_file(out);
  CHECK(first.starts_with("%PDF-"));
  CHECK(first.find("/Outlines") != std::string::npos);  // bookmarks
  REQUIRE(exworks::test::exworks("report " + morris + " --date 2026-11-25 --overwrite -o " + out).exit_code == 0);
  CHECK(read_file(out) == first);
}

TEST_CASE("a sheet has a line to write a stamped year on instead of sixty boxes", "[cli][report]") {
  const TemporaryFolder folder;
  const auto beetle = folder.path() / "beetle.txt", jeep = folder.path() / "jeep.txt";
  REQUIRE(test::exworks("sheet volkswagen-type1 -o " + beetle.string()).exit_code == 0);
  REQUIRE(test::exworks("sheet willys-4x4 -o " + jeep.string()).exit_code == 0);
  CHECK(read_file(beetle).find("[ ] year: ________ (1950 to 2003)") != std::string::npos);
  CHECK(read_file(beetle).find("[ ] 1963") == std::string::npos);
  CHECK(fold_space(read_file(jeep)).find("[ ] year: ________ (1941 to 1971) [ ] no date: Both tubes are clean and bear no date. [ ] none of these") != std::string::npos);
}

TEST_CASE("sheet lists every feature, or with --minutes what is worth most") {
  const TemporaryFolder folder;
  const auto features = [&](const std::string& options, const std::string& name) {
    const Run run = exworks::test::exworks("sheet morris-minor --json --date 2026-11-25 " + options + " -o " + (folder.path() / name).string());
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    return nlohmann::json::parse(run.out)["features"].get<int>();
  };
  const int all = features("", "a.html"), brief = features("--minutes 20", "b.html"), open = features("--for " + morris, "c.txt");
  CHECK(all > 60);
  CHECK(brief > 5);
  CHECK(brief < all);
  CHECK(open < all);
}
