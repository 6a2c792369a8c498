#pragma once
#include <optional>
#include <string>

#include "record/inspection.hpp"

namespace exworks {

/// The newest inspection format that this library reads; it reads those before it, too.
inline constexpr int inspection_format = 2;

/// Reads an inspection (rules/FORMAT.md). All mistakes are reported in one run; nothing is returned when there is one.
std::optional<Inspection> read_inspection(std::string text, const std::string& file, Diagnostics& diagnostics);

}  // namespace exworks
