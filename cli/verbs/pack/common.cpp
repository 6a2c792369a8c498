#include "verbs/pack/common.hpp"

#include <algorithm>
#include <filesystem>


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

}  // namespace exworks::cli
