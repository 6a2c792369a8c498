#include <algorithm>
#include <sstream>

#include "base/file.hpp"
#include "support.hpp"

/// Every example that a --help shows is run as it stands there, in a folder that has what the examples speak of. It must succeed.
using namespace exworks;
using namespace exworks::test;

namespace {

/// The lines between "Subcommands:" and the empty line after them, their first words.
std::vector<std::string> verbs_of(const std::string& help) {
  std::vector<std::string> out;
  std::istringstream lines(help);
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    if (line == "Subcommands:") inside = true;
    else if (line.empty()) inside = false;
    else if (inside && line.size() > 2 && line[2] != ' ') out.push_back(line.substr(2, line.find(' ', 2) - 2));
  }
  return out;
}

struct Example {
  std::string verb, arguments;
};

/// "Example: exworks ..." and the indented "exworks ..." below it.
std::vector<Example> examples_of(const std::string& verb) {
  const Run run = test::exworks(verb + " --help");
  REQUIRE(run.exit_code == 0);
  std::vector<Example> out;
  std::istringstream lines(run.out);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t at = line.find("exworks ");
    const std::string before = at == std::string::npos ? "-" : line.substr(0, at);
    if (before == "Example: " || (!before.empty() && before.find_first_not_of(' ') == std::string::npos)) out.push_back({verb, line.substr(at + 8)});
  }
  INFO(verb << ": no example in its help");
  CHECK_FALSE(out.empty());
  return out;
}

std::vector<Example> all_examples() {
  std::vector<Example> out = examples_of("");
  for (const std::string& verb : verbs_of(test::exworks("--help").out)) {
    const auto add = [&](const std::string& name) {
      for (Example& e : examples_of(name)) out.push_back(std::move(e));
    };
    add(verb);
    for (const std::string& sub : verbs_of(test::exworks(verb + " --help").out)) add(verb + " " + sub);
  }
  return out;
}

std::string shell(const std::string& command) {
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string out;
  char buffer[4096];
  for (std::size_t n; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) out.append(buffer, n);
  return std::to_string(WEXITSTATUS(pclose(pipe))) + " " + out;
}

/// What the examples speak of: the tree's rules and samples, an older edition, a table, confirmed vehicles, a photo, and a book of
/// twelve jobs, the last of which was assessed twice.
void furnish(const TemporaryFolder& folder) {
  for (const char* part : {"rules", "sample-vehicles"}) fs::copy(source_dir() / part, folder.path() / part, fs::copy_options::recursive);
  fs::create_directories(folder.path() / "old");
  fs::copy(rules_dir() / "aldermoor-carrier", folder.path() / "old/aldermoor-carrier", fs::copy_options::recursive);
  fs::copy(rules_dir() / "common", folder.path() / "old/common", fs::copy_options::recursive);
  folder.write("confirmed-1.xml", "<inspection format=\"1\" family=\"aldermoor-carrier\" date=\"2026-11-20\"><vehicle name=\"one\"/>"
                                  "<observed feature=\"grille\" value=\"nine-bars\" confirmed=\"as-built\"/></inspection>");
  folder.write("under-3.jpg", std::string("\xFF\xD8\xFF\xD9", 4));
}

}  // namespace

TEST_CASE("every example in a help text can be run", "[cli][examples]") {
  TemporaryFolder folder;
  furnish(folder);
  const std::string start = "cd '" + folder.path().string() + "' && export EXWORKS_BOOK=book.db HOME=\"$PWD\" && exworks() { '" EXWORKS_BINARY "' \"$@\"; } && ";
  INFO(shell(start + "exworks pack to-table aldermoor-carrier -o facts.csv"));
  const std::string book = shell(start +
                                 "set -e; for n in 1 2 3 4 5 6 7 8 9 10 11; do exworks job new --family aldermoor-carrier >/dev/null; done; "
                                 "exworks job import sample-vehicles/carrier-gearbox-from-a-later-van.xml; exworks job reassess 12; exworks job reassess 12; "
                                 "EXWORKS_BOOK=laptop.db exworks job import sample-vehicles/carrier-seen-from-the-road.xml; exworks book backup stick.db; cp book.db workshop.db");
  INFO(book);
  REQUIRE(book.starts_with("0 "));
  const std::vector<Example> examples = all_examples();
  CHECK(examples.size() > 30);
  for (const Example& example : examples) {
    if (example.verb == "serve") continue;  // it runs until it is ended; its own tests do that
    std::string arguments = example.arguments;
    // There is no stick in this machine, and the figures of every pack take long.
    const std::size_t stick = arguments.find("/media/stick/book.db");
    if (stick != std::string::npos) arguments.replace(stick, 20, example.verb == "book backup" ? "another.db" : "stick.db");
    if (arguments.find("pack coverage") == 0) arguments += " -n 5 --by-year 0";
    INFO("exworks " << example.arguments);
    const std::string ran = shell(start + "exworks " + arguments);
    INFO(ran);
    // A pack that serves for practice need not be fit to publish: there the answer may be no.
    const bool may_be_no = arguments.find("--strict") != std::string::npos;
    CHECK((ran.starts_with("0 ") || (may_be_no && ran.starts_with("1 "))));
  }
}

TEST_CASE("a mistyped command gets the nearest one, a wrong option the way to the help", "[cli][command]") {
  const auto refused = [](const std::string& arguments) {
    const Run run = test::exworks(arguments);
    CHECK(run.exit_code == 2);
    CHECK(run.out.empty());
    return run.err;
  };
  CHECK(refused("asses x.xml") == "exworks has no command 'asses'; did you mean 'assess'?\n");
  CHECK(refused("pack shw") == "exworks pack has no command 'shw'; did you mean 'show'?\n");
  CHECK(refused("qqqqqq") == "exworks has no command 'qqqqqq'; see exworks --help\n");
  CHECK(refused("next") == "FILE is required; see exworks next --help\n");
}
