#include <archive.h>
#include <archive_entry.h>

#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "book/bundle.hpp"
#include "base/sha256.hpp"
#include "support.hpp"

/// A bundle may come from anybody: what is hostile or damaged is refused, with the reason.
using namespace exworks;
using namespace exworks::test;

namespace {

struct Item {
  std::string name, bytes, link;
};

void pack(const fs::path& file, const std::vector<Item>& items) {
  archive* out = archive_write_new();
  archive_write_set_format_zip(out);
  archive_write_open_filename(out, file.c_str());
  for (const Item& i : items) {
    archive_entry* e = archive_entry_new();
    archive_entry_set_pathname(e, i.name.c_str());
    archive_entry_set_filetype(e, i.link.empty() ? AE_IFREG : AE_IFLNK);
    if (!i.link.empty()) archive_entry_set_symlink(e, i.link.c_str());
    archive_entry_set_size(e, static_cast<la_int64_t>(i.bytes.size()));
    archive_write_header(out, e);
    archive_write_data(out, i.bytes.data(), i.bytes.size());
    archive_entry_free(e);
  }
  archive_write_close(out);
  archive_write_free(out);
}

const std::string photo = std::string("\xff\xd8\xff\xe0", 4) + "bytes";
const std::string inspection = "<inspection format=\"1\"/>";

std::string manifest(const std::vector<Item>& items) {
  nlohmann::json m = {{"format", 1}, {"files", nlohmann::json::object()}, {"photos", nlohmann::json::object()}};
  for (const Item& i : items) m["files"][i.name] = sha256(i.bytes);
  return m.dump();
}

/// Why a bundle of these files, with a true manifest unless one is given, is refused; "" when it isn't.
std::string refusal(std::vector<Item> items, const std::string& own_manifest = "") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "b.zip";
  items.push_back({"manifest.json", own_manifest.empty() ? manifest(items) : own_manifest, ""});
  pack(file, items);
  try {
    read_bundle(file);
    return "";
  } catch (const BundleRefused& e) {
    const std::string begin = file.string() + ": the bundle is refused: ";
    REQUIRE(e.what.rfind(begin, 0) == 0);
    CHECK(e.remedy.find("nothing was taken in") != std::string::npos);
    return e.what.substr(begin.size());
  }
}

}  // namespace

TEST_CASE("A bundle comes out as it went in", "[book]") {
  const TemporaryFolder folder;
  const Bundle in{inspection, "{\"result\":{}}", {{sha256(photo), {{"file", "a.jpg"}, {"taken", "2026-11-20T10:15:00"}}}}, {{sha256(photo), photo}}};
  write_bundle(folder.path() / "b.zip", in);
  CHECK(looks_like_bundle(folder.path() / "b.zip"));
  const Bundle out = read_bundle(folder.path() / "b.zip");
  CHECK(out.inspection == in.inspection);
  CHECK(out.assessment == in.assessment);
  CHECK(out.photos == in.photos);
  CHECK(out.bytes == in.bytes);
}

TEST_CASE("A hostile bundle is refused with the reason", "[book]") {
  const Item good{"inspection.xml", inspection, ""};
  CHECK(refusal({good}).empty());
  CHECK(refusal({good, {"photos/" + sha256(photo), photo, ""}}).empty());
  CHECK(refusal({good, {"../evil.sh", "x", ""}}) == "'../evil.sh' leads out of the bundle");
  CHECK(refusal({good, {"photos/../../evil", "x", ""}}) == "'photos/../../evil' leads out of the bundle");
  CHECK(refusal({good, {"/etc/evil", "x", ""}}) == "'/etc/evil' is an absolute path");
  CHECK(refusal({good, {"C:evil", "x", ""}}) == "'C:evil' is an absolute path");
  CHECK_FALSE(refusal({good, {"photos\\evil", "x", ""}}).empty());
  CHECK_FALSE(refusal({good, {"..\\evil", "x", ""}}).empty());
  CHECK(refusal({good, {"extra.txt", "x", ""}}) == "'extra.txt' has no place in a bundle");
  CHECK(refusal({good, {"assessment.json", "", "/etc/passwd"}}) == "'assessment.json' is a link or no plain file");
  CHECK(refusal({good, good}) == "'inspection.xml' is in it twice");
  CHECK(refusal({{"assessment.json", "{}", ""}}) == "it has no manifest or no inspection");
  CHECK(refusal({good, {"photos/" + sha256("other"), photo, ""}}).find("is another than its name says") != std::string::npos);
  CHECK(refusal({good, {"photos/" + sha256("no photo"), "no photo", ""}}).find("is no photo") != std::string::npos);
  CHECK(refusal({good}, R"({"format":1,"files":{"inspection.xml":"00"},"photos":{}})") == "the hash of 'inspection.xml' is another than its manifest says");
  CHECK(refusal({good}, R"({"format":2,"files":{},"photos":{}})") == "it has another format than 1; update the program");
  CHECK(refusal({good}, R"({"format":1,"files":[],"photos":7})") == "its manifest can't be understood");
  CHECK(refusal({good}, "{") == "its manifest can't be understood");
  CHECK(refusal({good}, R"({"format":1,"files":{"inspection.xml":")" + sha256(inspection) + R"(","assessment.json":"0"},"photos":{}})") == "a file that its manifest names is missing");
  CHECK(refusal({good}, R"({"format":1,"files":{"inspection.xml":")" + sha256(inspection) + R"("},"photos":{"a":{}}})") == "its manifest speaks of a photo that isn't in it");
}

TEST_CASE("A zip bomb is stopped while it unpacks", "[book]") {
  CHECK(refusal({{"inspection.xml", std::string(30u << 20, ' '), ""}}) == "it unpacks to more than 100 times its size");
}

TEST_CASE("A bundle that is cut is refused, or gives all that was in it", "[book]") {
  const TemporaryFolder folder;
  const Bundle in{inspection, "", {{sha256(photo), {{"file", "a.jpg"}}}}, {{sha256(photo), photo}}};
  write_bundle(folder.path() / "b.zip", in);
  const std::string whole = read_file(folder.path() / "b.zip");
  std::size_t refused = 0, tried = 0;
  for (std::size_t cut = 0; cut < whole.size(); cut += 13) {
    const fs::path file = folder.write("cut.zip", whole.substr(0, cut));
    INFO(cut);
    ++tried;
    try {
      // The list at the end of a zip repeats what stands before it: without the list, everything can still be there.
      const Bundle out = read_bundle(file);
      CHECK(out.inspection == in.inspection);
      CHECK(out.photos == in.photos);
      CHECK(out.bytes == in.bytes);
    } catch (const BundleRefused&) {
      ++refused;
    }
  }
  CHECK(refused > tried / 3);
}
