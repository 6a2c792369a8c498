#include "workshop/packs.hpp"

#include <atomic>
#include <future>
#include <latch>

#include "base/file.hpp"
#include "mistakes.hpp"

/// The one loader of packs: which is meant, what is said when there is none, and what a pack that can't be used does to the others.
using namespace exworks;
using namespace exworks::test;

namespace {

std::string pack_named(const std::string& id) { return with_edit(faultless, R"(id="trial")", "id=\"" + id + "\""); }

/// A rules folder with the packs `morris-minor` and `carrier`, and a folder of work beside it.
struct Garage {
  TemporaryFolder folder;
  Rules rules{{folder.path() / "rules"}, {}};
  fs::path before = fs::current_path();

  Garage() {
    for (const char* id : {"morris-minor", "carrier"}) folder.write("rules/" + std::string(id) + "/pack.xml", pack_named(id));
    fs::create_directories(folder.path() / "work");
    fs::current_path(folder.path() / "work");
  }
  ~Garage() { fs::current_path(before); }
};

template <class Work>
std::string told(const Work& work) {
  try {
    work();
  } catch (const FileError& e) {
    return e.what + "; " + e.remedy;
  } catch (const Mistakes& m) {
    return lines_of(m.found);
  }
  return "";
}

}  // namespace

TEST_CASE("A folder in the working directory that has a family's name is not taken for the family", "[packs]") {
  const Garage g;
  fs::create_directory("morris-minor");  // a customer's photos, say
  CHECK(pack_or_folder("morris-minor", g.rules) == g.folder.path() / "rules/morris-minor");
  CHECK(pack_or_folder("./morris-minor", g.rules) == "./morris-minor");
  CHECK(pack_or_folder("morris-minor/", g.rules) == "morris-minor/");
  // A pack that is being written needs no ./ as long as no other has its name.
  fs::create_directory("my-van");
  CHECK(pack_or_folder("my-van", g.rules) == "my-van");
}

TEST_CASE("A pack that isn't there is told in the same words wherever it is asked for", "[packs]") {
  const Garage g;
  const std::string where = "there is no pack 'moris-minor' in " + words(g.rules), near = "; did you mean 'morris-minor'?";
  Packs packs(g.rules);
  CHECK(told([&] { pack_folder("moris-minor", g.rules); }) == where + near);
  CHECK(told([&] { load_tables("moris-minor", g.rules); }) == where + near);
  CHECK(told([&] { packs.get("moris-minor"); }) == where + near);
  CHECK(told([&] { pack_or_folder("moris-minor", g.rules); }) == where + ", and no such folder" + near);
  CHECK(told([&] { pack_folder("quite-another", g.rules); }) == "there is no pack 'quite-another' in " + words(g.rules) + "; there are carrier and morris-minor");
  CHECK(told([&] { pack_or_folder("./moris-minor", g.rules); }) == "./moris-minor: there is no such folder; name the folder of a pack");
}

TEST_CASE("A pack that can't be used says why each time that it is asked for", "[packs]") {
  const Garage g;
  g.folder.write("rules/mistaken/pack.xml", with_edit(pack_named("mistaken"), "format=\"1\"", "format=\"99\""));
  fs::create_directories(g.folder.path() / "rules/unreadable/pack.xml");  // no file
  Packs packs(g.rules);
  for (const char* family : {"mistaken", "unreadable"}) {
    const std::string first = told([&] { packs.get(family); });
    INFO(first);
    CHECK(first.find(std::string(family) + "/pack.xml") != std::string::npos);
    CHECK(told([&] { packs.get(family); }) == first);
  }
  CHECK(packs.get("carrier").family == "carrier");
  CHECK(&packs.get("carrier") == &packs.get("carrier"));
}

TEST_CASE("While one pack is read, the others can be had", "[packs]") {
  const Garage g;
  std::latch reading(1), go_on(1);
  Packs packs(g.rules, [&](const std::string& family, const Rules& rules) {
    if (family == "morris-minor") {
      reading.count_down();
      go_on.wait();
    }
    return load_tables(family, rules);
  });
  auto slow = std::async(std::launch::async, [&] { return packs.get("morris-minor").family; });
  reading.wait();
  auto quick = std::async(std::launch::async, [&] { return packs.get("carrier").family; });
  const bool had = quick.wait_for(std::chrono::seconds(30)) == std::future_status::ready;
  go_on.count_down();
  CHECK(had);
  CHECK(slow.get() == "morris-minor");
  CHECK(quick.get() == "carrier");
}
