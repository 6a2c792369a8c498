#pragma once
#include <optional>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// The tables of a pack that was read without errors. A pack beyond the limits (pack/model/limits.hpp, and 65 536 different columns of a
/// feature) is reported, and nothing is returned, before memory is taken for it.
std::optional<Tables> compile(const Pack& pack, Diagnostics& diagnostics);

}  // namespace exworks
