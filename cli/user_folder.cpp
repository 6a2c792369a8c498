#include "user_folder.hpp"

#include <cstdlib>

namespace exworks::cli {

std::optional<std::filesystem::path> user_folder(const char* variable, const char* below_home) {
  if (const char* named = std::getenv(variable); named != nullptr && *named == '/') return named;
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home == '\0') return std::nullopt;
  return std::filesystem::path(home) / below_home;
}

}  // namespace exworks::cli
