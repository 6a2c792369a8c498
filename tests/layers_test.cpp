#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "support.hpp"

/// Which part of the library may know of which. A pack as its author wrote it ends at the compiler: whatever judges sees tables.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::map<std::string, std::set<std::string>> allowed{
    {"base", {}},
    {"xml", {"base"}},
    {"numbers", {"base"}},
    {"record", {"base", "xml"}},
    {"pack/model", {"base", "numbers"}},
    {"law", {"base", "xml"}},
    {"pack/read", {"base", "xml", "pack/model", "law"}},
    {"pack/check", {"base", "pack/model"}},
    {"engine/tables", {"base", "numbers"}},
    {"engine/compile", {"base", "pack/model", "engine/tables"}},
    {"engine/evidence", {"base", "record", "engine/tables"}},
    {"engine/infer", {"base", "engine/tables", "engine/evidence"}},
    {"scheme", {"base", "xml"}},
    {"assess", {"base", "numbers", "record", "engine/tables", "engine/evidence", "engine/infer"}},
    {"assess/questions", {"base", "record", "engine/tables", "engine/evidence", "engine/infer", "scheme", "assess"}},
    {"study", {"base", "record", "engine/tables", "engine/evidence", "engine/infer", "assess"}},
    {"value", {"base"}},
    {"words/english", {"base", "engine/tables"}},
    {"words", {"base", "engine/tables", "assess", "assess/questions", "words/english"}},
    {"report/model", {"record", "assess", "assess/questions", "value", "words/english"}},
    {"report/render", {"base", "engine/tables", "assess", "words/english", "words", "report/model"}},
    {"report/answers", {"base", "numbers", "engine/tables", "assess/questions", "study", "words/english", "words", "report/render"}},
    {"report/kinds", {"base", "assess", "words/english", "words", "report/model", "report/render", "report/answers"}},
    {"report/json", {"assess", "words/english", "words", "report/model", "report/answers"}},
    {"author", {"base", "pack/model", "engine/compile", "words/english"}},
    {"api", {"base", "record", "pack/read", "engine/compile", "assess", "report/render", "report/kinds", "report/json"}},
    {"book", {"base"}},
    {"workshop", {"base", "xml", "record", "pack/model", "pack/read", "engine/tables", "engine/compile", "engine/evidence", "scheme", "assess", "words/english", "words", "report/model", "report/render", "report/kinds", "report/json", "book"}},
};

std::vector<fs::path> library_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(source_dir() / "lib")) {
    if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  REQUIRE(files.size() > 40);
  return files;
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::vector<std::string> lines;
  const std::string text = read_file(file);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

/// The folder below lib: "base", "pack/read".
std::string layer(const fs::path& file) { return fs::relative(file.parent_path(), source_dir() / "lib").generic_string(); }

/// The path between the quotes of `#include "..."`, or nothing.
std::string own_include(const std::string& line) {
  static const std::string start = "#include \"";
  if (!line.starts_with(start)) return {};
  return line.substr(start.size(), line.find('"', start.size()) - start.size());
}

}  // namespace

TEST_CASE("Each part of the library includes only what lies below it", "[layers]") {
  for (const fs::path& file : library_files()) {
    const auto rule = allowed.find(layer(file));
    INFO(file);
    REQUIRE(rule != allowed.end());
    for (const std::string& line : lines_of(file)) {
      const std::string target = own_include(line);
      if (target.empty()) continue;
      INFO(line);
      const std::string from = fs::path(target).parent_path().generic_string();
      CHECK((from == rule->first || rule->second.contains(from)));
      CHECK(fs::is_regular_file(source_dir() / "lib" / target));
    }
  }
}

TEST_CASE("The contributor's guide shows the same table", "[layers]") {
  std::map<std::string, std::set<std::string>> shown;
  for (const std::string& line : lines_of(source_dir() / "DEVELOPERS.md")) {
    static const std::regex row(R"(\| lib/(\S+) \| [^|]* \| ([^|]*) \|)");
    std::smatch part;
    if (!std::regex_match(line, part, row)) continue;
    const std::vector<std::string> names = split_words(std::regex_replace(part[2].str(), std::regex(","), " "));
    std::set<std::string>& may_include = shown[part[1]];
    may_include.insert(names.begin(), names.end());
    may_include.erase("nothing");
  }
  CHECK(shown == allowed);
}

TEST_CASE("Nothing below the words decides by a sentence", "[layers]") {
  static const std::regex sentence(R"rx(([=!]=|starts_with\(|ends_with\(|find\(|contains\()\s*"[^"\s]+ [^"]*")rx");
  for (const fs::path& file : library_files()) {
    static const std::set<std::string> judging{"engine/tables", "engine/compile", "engine/evidence", "engine/infer", "assess", "assess/questions", "study", "value"};
    if (!judging.contains(layer(file))) continue;
    for (const std::string& line : lines_of(file)) {
      INFO(file << ": " << line);
      CHECK_FALSE(std::regex_search(line, sentence));
    }
  }
}

TEST_CASE("No folder of the library or the command holds more than 25 files", "[layers]") {
  std::map<fs::path, std::size_t> files;
  for (const char* part : {"lib", "cli"}) {
    for (const auto& entry : fs::recursive_directory_iterator(source_dir() / part)) {
      if (entry.is_regular_file()) ++files[entry.path().parent_path()];
    }
  }
  for (const auto& [folder, n] : files) {
    INFO(folder);
    CHECK(n <= 25);
  }
}

// CLI11 2.1.2 costs eight CPU seconds in each file that includes it.
TEST_CASE("The parser of the command line is compiled into eight files at the most, and JSON into no header of the library", "[layers]") {
  std::vector<std::string> parsing;
  for (const char* part : {"lib", "cli"}) {
    for (const auto& entry : fs::recursive_directory_iterator(source_dir() / part)) {
      const std::string name = fs::relative(entry.path(), source_dir()).generic_string(), ending = entry.path().extension().string();
      if (ending != ".cpp" && ending != ".hpp") continue;
      const std::string text = read_file(entry.path());
      INFO(name);
      const bool parses = text.find("CLI/CLI.hpp") != std::string::npos || text.find("options/options.hpp") != std::string::npos;
      if (parses) CHECK((name.starts_with("cli/options/") || name.starts_with("cli/manual/")));
      if (parses && ending == ".cpp") parsing.push_back(name);
      if (ending == ".hpp" && std::string(part) == "lib") CHECK(text.find("nlohmann/json.hpp") == std::string::npos);
    }
  }
  CHECK(parsing.size() <= 8);
  CHECK(parsing.size() > 1);
}

TEST_CASE("The tables that the judging parts see know nothing of packs", "[layers]") {
  for (const char* name : {"catalogue.hpp", "tables.hpp", "tables.cpp"}) {
    for (const std::string& line : lines_of(source_dir() / "lib/engine/tables" / name)) {
      INFO(name << ": " << line);
      CHECK_FALSE(own_include(line).starts_with("pack/"));
    }
  }
}

TEST_CASE("No file of the library is longer than 500 lines", "[layers]") {
  for (const fs::path& file : library_files()) {
    INFO(file);
    CHECK(lines_of(file).size() <= 500);
  }
}

TEST_CASE("Only the XML reader knows the parser below it", "[layers]") {
  for (const fs::path& file : library_files()) {
    if (layer(file) == "xml") continue;
    INFO(file);
    CHECK(read_file(file).find("pugi") == std::string::npos);
  }
}

TEST_CASE("The library prints nothing and ends no process: that is the command's affair", "[layers]") {
  for (const fs::path& file : library_files()) {
    for (const std::string& line : lines_of(file)) {
      INFO(file << ": " << line);
      for (const char* word : {"std::cout", "std::cerr", "std::clog", "puts(", "<iostream>", "putchar(", "exit(", "abort("}) CHECK(line.find(word) == std::string::npos);
      for (std::size_t at = line.find("printf("); at != std::string::npos; at = line.find("printf(", at + 1)) {
        const bool into_a_buffer = at >= 2 && line.compare(at - 2, 2, "sn") == 0;
        CHECK(into_a_buffer);
      }
    }
  }
}
