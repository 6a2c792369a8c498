#include "base/file.hpp"
#include "base/sha256.hpp"
#include "support.hpp"

/// A pack's digest stands for every file that can change an answer: two that are equal judge alike.
using namespace exworks;
using namespace exworks::test;

namespace {

const char* const van = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <include href="../common/sources.xml"/>
  <place id="inside" name="Inside"/> <market id="gb" name="Britain" country="GB"/> <plant id="works" name="Works"/>
  <generation id="g" name="Van"/> <body id="saloon" name="saloon"/>
  <variant id="v" name="Van" generation="g" body="saloon" markets="*" plants="*" from="1960-01" to="1970-12" source="trade"/>
  <feature id="belts" name="Belt anchorages" place="inside"><value id="none" name="none"/><value id="fitted" name="fitted"/>
    <fact value="none" to="1962-01" source="trade"/> <legal requirement="GB-020" value="fitted"/></feature>
</pack>)";

const char* const ours = R"(<pack format="1" id="ours" name="Ours" version="1" status="invented" extends="trial">
  <include href="../common/sources.xml"/>
  <add feature="belts"><fact value="fitted" from="1969-01" source="trade"/></add>
</pack>)";

/// Packs side by side with what they share, and a copy of the real law.
struct Shelf {
  Shelf() {
    folder.write("trial/pack.xml", van);
    folder.write("ours/pack.xml", ours);
    folder.write("common/sources.xml", R"(<shared format="1"><source id="trade" kind="common-practice" title="common practice, no source"/></shared>)");
    fs::copy(rules_dir() / "market", folder.path() / "market");
  }
  Pack read(const char* name) const {
    Diagnostics d;
    auto pack = read_pack(folder.path() / name, d);
    INFO(messages(d));
    REQUIRE(pack);
    return std::move(*pack);
  }
  std::string digest(const char* name = "trial") const { return read(name).digest; }
  /// Writes `now` for `was` in a file, once.
  void change(const std::string& file, const std::string& was, const std::string& now) const {
    std::string text = read_file(folder.path() / file);
    REQUIRE(text.find(was) != std::string::npos);
    text.replace(text.find(was), was.size(), now);
    folder.write(file, text);
  }
  TemporaryFolder folder;
};

}  // namespace

TEST_CASE("A pack's digest is SHA-256, and the same wherever its files lie", "[packs]") {
  const Shelf here, there;
  CHECK(is_sha256(here.digest()));
  CHECK(here.digest() == there.digest());
  CHECK(is_sha256(pack("aldermoor-carrier").digest));
}

TEST_CASE("A date of law that moves gives every pack that draws on it another digest", "[packs][law]") {
  const Shelf shelf;
  const std::string before = shelf.digest(), ours_before = shelf.digest("ours");
  shelf.change("market/gb.xml", R"(id="GB-020")", R"(id="GB-020" )");  // any byte of the file
  CHECK(shelf.digest() != before);
  shelf.change("market/gb.xml", R"(id="GB-020" )", R"(id="GB-020")");
  CHECK(shelf.digest() == before);
  const std::string gb = read_file(shelf.folder.path() / "market/gb.xml");
  const std::size_t from = gb.find("from=\"", gb.find("id=\"GB-020\""));
  REQUIRE(from != std::string::npos);
  shelf.folder.write("market/gb.xml", gb.substr(0, from + 6) + "1966" + gb.substr(from + 10));
  CHECK(shelf.digest() != before);
  CHECK(shelf.digest("ours") != ours_before);
}

TEST_CASE("Law that a pack doesn't draw on leaves its digest alone; a shared part and the pack that it extends don't", "[packs][law]") {
  const Shelf shelf;
  const std::string before = shelf.digest(), ours_before = shelf.digest("ours");
  shelf.change("market/us.xml", "</requirements>", "<!-- read again --></requirements>");
  CHECK(shelf.digest() == before);
  shelf.change("common/sources.xml", "no source", "without a source");
  const std::string shared = shelf.digest();
  CHECK(shared != before);
  CHECK(shelf.digest("ours") != ours_before);
  shelf.change("trial/pack.xml", "Belt anchorages", "Anchorages");
  CHECK(shelf.digest() != shared);
}

TEST_CASE("The digest of the pack that another extends is the one that it has by itself", "[packs][private]") {
  const Shelf shelf;
  const Pack pack = shelf.read("ours");
  REQUIRE(pack.extends.size() == 1);
  CHECK(pack.extends[0].digest == shelf.digest("trial"));
}

TEST_CASE("A market whose law no pack names is not read, whatever is wrong with its rows", "[packs][law]") {
  const Shelf shelf;
  shelf.change("market/us.xml", "<requirement ", "<requirement no-such-attribute=\"1\" ");
  shelf.digest();  // reads without a message
  shelf.change("trial/pack.xml", "GB-020", "GB-999");
  Diagnostics d;
  CHECK_FALSE(read_pack(shelf.folder.path() / "trial", d));
  CHECK(messages(d).find("'requirement' has no attribute 'no-such-attribute'") != std::string::npos);  // looked for everywhere now
  CHECK(messages(d).find("there is no requirement 'GB-999'") != std::string::npos);
}
