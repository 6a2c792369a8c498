#include <algorithm>
#include <cstdlib>

#include "base/file.hpp"
#include "support.hpp"
#include "words/expectations.hpp"

/// Every pack of the tree: its grammar, its checks, its sources, its reference vehicles.
using namespace exworks;
using namespace exworks::test;

namespace {

std::vector<fs::path> xml_files(const fs::path& folder) {
  std::vector<fs::path> out;
  if (!fs::is_directory(folder)) return out;
  for (const auto& e : fs::directory_iterator(folder)) {
    if (e.path().extension() == ".xml") out.push_back(e.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

bool valid(const fs::path& schema, const fs::path& file) {
  return std::system(("xmllint --noout --relaxng '" + schema.string() + "' '" + file.string() + "' >/dev/null 2>&1").c_str()) == 0;
}

bool have_xmllint() { return std::system("command -v xmllint >/dev/null 2>&1") == 0; }

}  // namespace

TEST_CASE("Every pack follows the published schema", "[packs]") {
  if (!have_xmllint()) {
    WARN("SKIPPED: xmllint is not installed (Debian package libxml2-utils)");
    return;
  }
  const fs::path schema = rules_dir() / "schema";
  for (const fs::path& folder : pack_folders({rules_dir()})) {
    for (const fs::path& file : xml_files(folder)) {
      INFO(file);
      CHECK(valid(schema / "pack.rng", file));
    }
    for (const fs::path& file : xml_files(folder / "reference")) {
      INFO(file);
      CHECK(valid(schema / "inspection.rng", file));
    }
  }
  for (const fs::path& file : xml_files(rules_dir() / "common")) CHECK(valid(schema / "pack.rng", file));
  for (const fs::path& file : xml_files(source_dir() / "sample-vehicles")) {
    INFO(file);
    CHECK(valid(schema / "inspection.rng", file));
  }
}

TEST_CASE("Every pack passes its check, and every fact has a source", "[packs]") {
  for (const fs::path& folder : pack_folders({rules_dir()})) {
    Diagnostics d;
    const auto read = read_pack(folder, d);
    if (read) check_pack(*read, d);
    std::string errors;
    for (const Diagnostic& x : d.sorted()) {
      if (x.severity == Severity::error) errors += to_text(x) + "\n";
    }
    INFO(errors);
    REQUIRE(read);
    CHECK_FALSE(d.has_errors());
    for (const Feature& f : read->features) {
      for (const Fact& fact : f.facts) {
        INFO(f.id);
        CHECK_FALSE(fact.sources.empty());
      }
    }
  }
}

TEST_CASE("Every reference vehicle comes out as its published description says", "[packs]") {
  for (const fs::path& folder : pack_folders({rules_dir()})) {
    const Tables& t = pack(folder.filename().string());
    for (const fs::path& file : xml_files(folder / "reference")) {
      Diagnostics d;
      const auto inspection = read_inspection(read_file(file), file.string(), d);
      INFO(messages(d));
      REQUIRE(inspection);
      const auto a = assess(t, *inspection, Settings{}, Given{}, d);
      INFO(messages(d));
      REQUIRE(a);
      const auto results = check_expectations(t, *inspection, *a, d);
      CHECK_FALSE(d.has_errors());
      CHECK_FALSE(results.empty());
      for (const ExpectationResult& r : results) {
        INFO(file << ": expected " << expected_words(r) << ", found " << found_words(t, *a, r) << " (" << r.expectation->source << ")");
        CHECK(r.met);
      }
    }
  }
}

TEST_CASE("Every sample vehicle can be assessed by its own pack", "[packs]") {
  const auto files = xml_files(source_dir() / "sample-vehicles");
  CHECK(files.size() >= 5);
  for (const fs::path& file : files) {
    Diagnostics d;
    const auto inspection = read_inspection(read_file(file), file.string(), d);
    INFO(file << " " << messages(d));
    REQUIRE(inspection);
    const auto a = assess(pack(inspection->family), *inspection, Settings{}, Given{}, d);
    INFO(messages(d));
    CHECK(a);
  }
}
