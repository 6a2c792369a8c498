#include <sstream>

#include "base/file.hpp"
#include "cli/workshop.hpp"

/// What long commands note of their work, on standard error, when it is asked for.
using namespace exworks::test;

namespace {

/// $EXWORKS_LOG for the commands of one test.
struct LogAsked {
  explicit LogAsked(const char* value) { setenv("EXWORKS_LOG", value, 1); }
  ~LogAsked() { unsetenv("EXWORKS_LOG"); }
  LogAsked(const LogAsked&) = delete;
};

const std::string van = (source_dir() / "sample-vehicles/carrier-gearbox-from-a-later-van.xml").string();

}  // namespace

TEST_CASE("A backup notes nothing unless it is asked to", "[log]") {
  const Workshop w;
  w.done("job import " + van);
  CHECK(w.run("book backup " + w.file("copy.db")).err.empty());
}

TEST_CASE("With $EXWORKS_LOG imports and backups note what they did, as lines of JSON by choice", "[log]") {
  const Workshop w;
  const LogAsked asked("info,json");
  std::string notes = w.run("job import " + van).err;
  notes += w.run("book backup " + w.file("copy.db")).err;
  std::istringstream lines(notes);
  std::vector<std::string> what;
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    const auto json = nlohmann::json::parse(line);
    CHECK(json.at("level") == "info");
    CHECK(json.at("at").get<std::string>().ends_with("Z"));
    what.push_back(json.at("what"));
  }
  CHECK(what == std::vector<std::string>{"imported", "finished", "finished"});
  CHECK(notes.find("gearbox-from") == std::string::npos);
}

TEST_CASE("The option of the level goes before $EXWORKS_LOG", "[log]") {
  const Workshop w;
  w.done("job import " + van);
  const LogAsked asked("debug");
  CHECK(w.run("book verify --log-level off").err.empty());
  CHECK(w.run("book verify").err.find(" info finished exit=0 ms=") != std::string::npos);
}

TEST_CASE("A level that there is not is bad usage", "[log]") {
  const Workshop w;
  const LogAsked asked("loud");
  const Run r = w.run("book verify");
  CHECK(r.exit_code == 2);
  CHECK(r.err == "$EXWORKS_LOG says 'loud'; write debug, info, warning, error or off, and ',json' after it for lines of JSON\n");
}

TEST_CASE("A batch notes how many it assessed and how many failed", "[log]") {
  const TemporaryFolder folder;
  const std::string broken = (folder.path() / "broken.xml").string();
  exworks::write_file(broken, "<inspection");
  const Run r = exworks::test::exworks("assess --quick --jsonl --log-level info " + van + " " + broken);
  CHECK(r.exit_code == 3);
  CHECK(r.err.find(" warning batch assessed inspections=2 failed=1 ms=") != std::string::npos);
}
