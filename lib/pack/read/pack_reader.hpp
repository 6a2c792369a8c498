#pragma once
#include <filesystem>
#include <optional>

#include "base/diagnostic.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// The newest pack format that this library reads; it reads format 1, too (`exworks pack upgrade` rewrites it).
inline constexpr int pack_format = 2;

/// Reads every `*.xml` of a pack's folder, and the shared parts they include. All mistakes of all files are reported in
/// one run; nothing is returned when there is an error. Checks that need the whole pack are in pack_checks.hpp.
/// A pack that it extends is looked for beside it, then in each of `rules`. Throws FileError when a file can't be read.
std::optional<Pack> read_pack(const std::filesystem::path& folder, Diagnostics& diagnostics, const std::vector<std::filesystem::path>& rules = {});

/// The folders below each of `rules` that hold a pack.xml, by name; of two with one name the first. Throws FileError when one
/// of `rules` can't be listed.
std::vector<std::filesystem::path> pack_folders(const std::vector<std::filesystem::path>& rules);

}  // namespace exworks
