#pragma once
#include <filesystem>
#include <optional>

#include "base/diagnostic.hpp"
#include "pack/pack.hpp"

namespace exworks {

/// The pack format that this library reads.
inline constexpr int pack_format = 1;

/// Reads every `*.xml` of a pack's folder, and the shared parts they include. All mistakes of all files are reported in
/// one run; nothing is returned when there is an error. Checks that need the whole pack are in pack_checks.hpp.
/// Throws FileError when a file can't be read.
std::optional<Pack> read_pack(const std::filesystem::path& folder, Diagnostics& diagnostics);

/// The folders below `rules` that hold a pack.xml, by name. Throws FileError when `rules` can't be listed.
std::vector<std::filesystem::path> pack_folders(const std::filesystem::path& rules);

}  // namespace exworks
