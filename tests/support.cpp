#include "support.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "assess/summary.hpp"
#include "base/file.hpp"
#include "words/reasons.hpp"

namespace exworks::test {

TemporaryFolder::TemporaryFolder() {
  std::string name = (fs::temp_directory_path() / "exworks-test-XXXXXX").string();
  path_ = mkdtemp(name.data());
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path TemporaryFolder::write(const std::string& name, const std::string& text) const {
  const fs::path file = path_ / name;
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << text;
  return file;
}

std::string messages(const Diagnostics& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics.sorted()) out += to_text(d) + "\n";
  return out;
}

const Tables& pack(const std::string& family) {
  static std::map<std::string, Tables> known;
  auto at = known.find(family);
  if (at == known.end()) {
    Diagnostics d;
    const auto read = read_pack(rules_dir() / family, d);
    INFO(messages(d));
    REQUIRE(read);
    at = known.emplace(family, compile(*read, d).value()).first;
  }
  return at->second;
}

Tables pack_from_text(const std::string& xml) {
  TemporaryFolder folder;
  folder.write("trial/pack.xml", xml);
  Diagnostics d;
  const auto read = read_pack(folder.path() / "trial", d);
  if (read) check_pack(*read, d);
  INFO(messages(d));
  REQUIRE(read);
  REQUIRE_FALSE(d.has_errors());
  return compile(*read, d).value();
}

Diagnostics check_text(const std::string& xml) {
  TemporaryFolder folder;
  folder.write("trial/pack.xml", xml);
  Diagnostics d;
  const fs::path before = fs::current_path();
  fs::current_path(folder.path());  // messages then name trial/pack.xml
  const auto read = read_pack("trial", d);
  fs::current_path(before);
  if (read) check_pack(*read, d);
  return d;
}

Inspection inspection_from_text(const std::string& xml) {
  Diagnostics d;
  auto inspection = read_inspection(xml, "inspection.xml", d);
  INFO(messages(d));
  REQUIRE(inspection);
  return *inspection;
}

Judged assess_lines(const Tables& tables, const std::string& lines, const Settings& settings, const Given& given) {
  const Inspection inspection = inspection_from_text("<inspection format=\"1\" date=\"2026-11-20\">" + lines + "</inspection>");
  Diagnostics d;
  auto assessment = assess(tables, inspection, settings, given, d);
  INFO(messages(d));
  REQUIRE(assessment);
  return {std::move(*assessment), &tables, inspection};
}

const FeatureVerdict& feature(const Judged& judged, const std::string& id) {
  const auto at = judged.tables->feature_index.find(id);
  const FeatureVerdict* verdict = at == judged.tables->feature_index.end() ? nullptr : verdict_on(judged, at->second);
  if (verdict == nullptr) FAIL("feature '" << id << "' is not in the assessment");
  return *verdict;
}

std::string reason(const Judged& judged, const std::string& id) { return reason_words(*judged.tables, judged, feature(judged, id)); }

const NumberVerdict& number(const Judged& judged, const std::string& id) {
  for (const NumberVerdict& n : judged.numbers) {
    if (judged.tables->numbers[n.number].id == id) return n;
  }
  FAIL("number '" << id << "' is not in the assessment");
  return judged.numbers.front();
}

double odds_of(const std::vector<Odds>& odds, std::size_t index) {
  for (const Odds& o : odds) {
    if (o.index == index) return o.p;
  }
  return 0;
}

double generation_odds(const Tables& tables, const Assessment& assessment, const std::string& id) {
  for (std::size_t g = 0; g < tables.axes.generations.size(); ++g) {
    if (tables.axes.generations[g].id == id) return odds_of(assessment.generations, g);
  }
  FAIL("no generation '" << id << "'");
  return 0;
}

Run exworks(const std::string& arguments) {
  const TemporaryFolder folder;
  const std::string out = (folder.path() / "out").string(), err = (folder.path() / "err").string();
  // Whatever packs and job book the developer has of his own stay out of it.
  const std::string home = std::getenv("XDG_DATA_HOME") == nullptr ? "XDG_DATA_HOME='" + (folder.path() / "data").string() + "' " : "";
  const std::string command = home + EXWORKS_BINARY + " " + arguments + " >" + out + " 2>" + err;
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_file(out), read_file(err)};
}

}  // namespace exworks::test
