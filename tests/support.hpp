#pragma once
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "engine/compile/compiler.hpp"
#include "pack/check/pack_checks.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "assess/assessment.hpp"

/// What every test needs: packs and inspections from the tree or from text, and the one call that judges.
namespace exworks::test {

namespace fs = std::filesystem;

inline fs::path source_dir() { return EXWORKS_SOURCE_DIR; }
inline fs::path rules_dir() { return source_dir() / "rules"; }

/// A folder of its own that vanishes with the object.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const fs::path& path() const { return path_; }
  /// Writes a file below the folder and returns its path.
  fs::path write(const std::string& name, const std::string& text) const;

 private:
  fs::path path_;
};

/// All messages, one a line.
std::string messages(const Diagnostics& diagnostics);

/// A pack of the tree, compiled; read once a run.
const Tables& pack(const std::string& family);

/// A pack from the text of its pack.xml (id "trial"); fails the test when it has errors.
Tables pack_from_text(const std::string& xml);

/// The errors and notes of a pack given as text.
Diagnostics check_text(const std::string& xml);

Inspection inspection_from_text(const std::string& xml);

/// An assessment with what it is of, so that features and numbers can be asked for by id.
struct Judged : Assessment {
  const Tables* tables = nullptr;
  Inspection inspection;
};

/// `<inspection format="1">` around these lines.
Judged assess_lines(const Tables& tables, const std::string& lines, const Settings& settings = {}, const Given& given = {});

const FeatureVerdict& feature(const Judged& judged, const std::string& id);
const NumberVerdict& number(const Judged& judged, const std::string& id);
/// The sentence that says why.
std::string reason(const Judged& judged, const std::string& feature);
double odds_of(const std::vector<Odds>& odds, std::size_t index);
double generation_odds(const Tables& tables, const Assessment& assessment, const std::string& id);

struct Run {
  int exit_code = -1;
  std::string out, err;
};
/// Runs the built command with these arguments (shell words).
Run exworks(const std::string& arguments);

}  // namespace exworks::test
