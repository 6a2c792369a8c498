#include "verbs/pack/reference.hpp"

#include <algorithm>
#include <filesystem>

#include "words/expectations.hpp"
#include "command.hpp"

namespace exworks::cli {

namespace fs = std::filesystem;

std::vector<std::string> reference_vehicles(const std::string& folder) {
  std::vector<std::string> files;
  const fs::path reference = fs::path(folder) / "reference";
  if (!fs::is_directory(reference)) return files;
  for (const auto& entry : fs::directory_iterator(reference)) {
    if (entry.path().extension() == ".xml") files.push_back(entry.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

ReferenceResult run_reference(const Tables& tables, const std::string& file) {
  const Inspection inspection = load_inspection(file);
  Diagnostics diagnostics;
  const auto assessment = assess(tables, inspection, Settings{}, Given{}, diagnostics);
  std::vector<ExpectationResult> results;
  if (assessment) results = check_expectations(tables, inspection, *assessment, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) throw BadInput{};
  ReferenceResult out{inspection.vehicle, {}, true};
  for (const ExpectationResult& r : results) {
    out.lines.push_back({r.expectation->place, expected_words(r), found_words(tables, *assessment, r), r.expectation->source, r.expectation->note, r.met});
    out.met = out.met && r.met;
  }
  return out;
}

}  // namespace exworks::cli
