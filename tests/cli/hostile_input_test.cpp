#include <sys/stat.h>

#include "base/file.hpp"
#include "book/bundle.hpp"
#include "cli/workshop.hpp"

/// Files and words that nobody means well with. What the command must do is common practice, no source: it ends, says why, and has
/// written nothing.
using namespace exworks::test;
namespace fs = std::filesystem;

namespace {

const std::string van = (source_dir() / "sample-vehicles/carrier-gearbox-from-a-later-van.xml").string();

/// The same with a limit of ten seconds: what hangs has failed.
Run in_time(const std::string& arguments) { return exworks::test::exworks("--version >/dev/null; timeout 10 " EXWORKS_BINARY " " + arguments); }

}  // namespace

TEST_CASE("A bundle whose assessment nests a million deep is refused, and no job is made of it", "[hostile]") {
  const Workshop w;
  exworks::Bundle bundle;
  bundle.inspection = exworks::read_file(van);
  bundle.assessment = "{\"result\":" + std::string(1'000'000, '[') + std::string(1'000'000, ']') + "}";
  exworks::write_bundle(w.file("deep.zip"), bundle);
  const Run r = w.run("job import " + w.file("deep.zip"));
  CHECK(r.exit_code == 3);
  CHECK(r.err.find("its assessment can't be understood") != std::string::npos);
  CHECK(w.json("job list").empty());
}

TEST_CASE("A name that is no text is refused before it gets into the history", "[hostile]") {
  const Workshop w;
  w.done("job import " + van);
  const Run r = w.run("job set 1 grille=mesh --by \"$(printf 'a\\377')\"");
  CHECK(r.exit_code == 3);
  CHECK(r.err.find("--by is not plain text: byte 2 is no character") != std::string::npos);
  CHECK(w.run("job show 1 --json").exit_code == 0);
}

TEST_CASE("What is repeated in a message can't steer the terminal", "[hostile]") {
  const Run r = exworks::test::exworks("number \"$(printf '\\033[31mX\\302\\233')\"");
  CHECK(r.exit_code == 1);
  CHECK(r.err.find("no pack reads '?[31mX?'") != std::string::npos);
  CHECK(r.err.find('\x1b') == std::string::npos);
}

TEST_CASE("Standard input without end is not read for ever", "[hostile]") {
  const Run r = in_time("assess - </dev/zero");
  CHECK(r.exit_code == 4);
  CHECK(r.err == "standard input: more than 64 MiB of input; a pack or an inspection is never that large; check the name\n");
}

TEST_CASE("A pipe among the files of a pack, and a link that leads round in a circle, are passed over", "[hostile]") {
  const TemporaryFolder folder;
  fs::create_directories(folder.path() / "rules");
  fs::copy(rules_dir() / "aldermoor-carrier", folder.path() / "rules/aldermoor-carrier", fs::copy_options::recursive);
  fs::copy(rules_dir() / "common", folder.path() / "rules/common", fs::copy_options::recursive);
  REQUIRE(mkfifo((folder.path() / "rules/aldermoor-carrier/pipe.xml").c_str(), 0600) == 0);
  fs::create_directory_symlink("round", folder.path() / "rules/round");
  const Run r = in_time("assess --rules " + (folder.path() / "rules").string() + " " + van);
  INFO(r.err);
  CHECK(r.exit_code == 0);
}

TEST_CASE("A file is never written through a link that somebody has planted beside it", "[hostile]") {
  const TemporaryFolder folder;
  folder.write("victim", "precious");
  for (const char* planted : {"out.txt.part", "out.txt.tmp"}) fs::create_symlink(folder.path() / "victim", folder.path() / planted);
  exworks::write_file(folder.path() / "out.txt", "new");
  CHECK(exworks::read_file(folder.path() / "victim") == "precious");
  CHECK(exworks::read_file(folder.path() / "out.txt") == "new");
  CHECK_FALSE(fs::is_symlink(folder.path() / "out.txt"));
}

TEST_CASE("'nan' is no number of minutes, nor of per cent", "[hostile]") {
  for (const char* arguments : {"next --minutes nan ", "report -o r.html --trend nan "}) {
    const Run r = exworks::test::exworks(arguments + van);
    INFO(arguments << r.err);
    CHECK(r.exit_code == 2);
    CHECK(r.err.find("'nan' is no number") != std::string::npos);
  }
}
