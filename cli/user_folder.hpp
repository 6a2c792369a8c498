#pragma once
#include <filesystem>
#include <optional>

namespace exworks::cli {

/// The user's folder of a kind (XDG Base Directory Specification 0.8): what the environment's `variable` names, when that is an absolute
/// path, else `below_home` in the home folder. Nothing when there is no home folder either.
std::optional<std::filesystem::path> user_folder(const char* variable, const char* below_home);

}  // namespace exworks::cli
