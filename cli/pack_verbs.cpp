#include "pack_verbs.hpp"

#include <filesystem>

#include "base/file.hpp"
#include "base/text.hpp"
#include "pack/pack_reader.hpp"

namespace exworks::cli {

namespace fs = std::filesystem;

std::string find_pack_folder(const std::string& named, const std::string& rules) {
  std::error_code too_long;  // an absurd name is simply no folder
  if (fs::is_directory(named, too_long)) return named;
  std::vector<std::string> names;
  for (const fs::path& p : pack_folders(rules)) names.push_back(p.filename().string());
  if (std::find(names.begin(), names.end(), named) != names.end()) return (fs::path(rules) / named).string();
  throw FileError{"there is no pack '" + named + "' in " + rules + ", and no such folder", did_you_mean(named, names, "there are " + join_and(names))};
}

Pack read_pack_folder(const std::string& folder) {
  Diagnostics diagnostics;
  auto pack = read_pack(folder, diagnostics);
  if (!pack) {
    print(diagnostics, false);
    throw BadInput{};
  }
  return std::move(*pack);
}

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

}  // namespace exworks::cli
