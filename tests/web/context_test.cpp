#include "web/api/context.hpp"

#include "mistakes.hpp"

/// The packs that the guided inspection offers.
using namespace exworks;
using namespace exworks::test;

TEST_CASE("A pack that can't be read is left out and named, and the guided inspection goes on with the others", "[serve]") {
  TemporaryFolder folder;
  folder.write("rules/trial/pack.xml", faultless);
  folder.write("rules/mistaken/pack.xml", with_edit(with_edit(faultless, "id=\"trial\"", "id=\"mistaken\""), "<place id=\"front\"", "<plaice id=\"front\""));
  folder.write("rules/unreadable/pack.xml", with_edit(faultless, "id=\"trial\"", "id=\"unreadable\""));
  fs::create_directories(folder.path() / "rules/unreadable/engine.xml");  // a folder where a file is wanted
  cli::web::Context context(Book(folder.path() / "book.db", system_environment()), Rules{{folder.path() / "rules"}, {}});
  const std::vector<std::string> wrong = context.load_packs();
  REQUIRE(context.families().size() == 1);
  CHECK(context.families().front()->family == "trial");
  REQUIRE(wrong.size() == 2);
  CHECK(wrong[0].find("mistaken/pack.xml:3:1: ") != std::string::npos);
  CHECK(wrong[1].find("unreadable/engine.xml") != std::string::npos);
}
