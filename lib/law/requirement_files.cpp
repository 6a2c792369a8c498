#include "law/requirement_files.hpp"

#include <algorithm>

#include "base/file.hpp"

namespace exworks {

namespace fs = std::filesystem;

RequirementFiles::RequirementFiles(std::vector<fs::path> folders, std::vector<std::string> countries) : folders_(std::move(folders)), countries_(std::move(countries)) {}

/// The heads of all files: only they say whose law it is.
void RequirementFiles::open(Diagnostics& diagnostics) {
  opened_ = true;
  std::vector<fs::path> taken;
  for (const fs::path& folder : folders_) {
    std::error_code ignored;
    if (!fs::is_directory(folder, ignored)) continue;
    const fs::path resolved = fs::canonical(folder, ignored);
    if (std::find(taken.begin(), taken.end(), resolved) != taken.end()) continue;
    taken.push_back(resolved);
    for (const fs::path& file : requirement_files_in(folder)) {
      File& f = files_.emplace_back();
      f.root = open_requirements(read_file(file), file.lexically_normal().string(), f.market, diagnostics);
      f.named = std::find(countries_.begin(), countries_.end(), f.market.country) != countries_.end();
    }
  }
}

std::optional<RequirementFiles::Found> RequirementFiles::find(const std::string& id, Diagnostics& diagnostics) {
  if (!opened_) open(diagnostics);
  for (const bool named : {true, false}) {
    for (File& f : files_) {
      if (f.named != named) continue;
      if (f.root) read_rows(*f.root, f.market, diagnostics);
      f.root.reset();
      const auto at = std::find_if(f.market.rows.begin(), f.market.rows.end(), [&](const Requirement& r) { return r.id == id; });
      if (at != f.market.rows.end()) return Found{&f.market, &*at};
    }
  }
  return std::nullopt;
}

std::vector<std::string> RequirementFiles::ids() const {
  std::vector<std::string> out;
  for (const File& f : files_) {
    for (const Requirement& r : f.market.rows) {
      if (std::find(out.begin(), out.end(), r.id) == out.end()) out.push_back(r.id);
    }
  }
  return out;
}

}  // namespace exworks
