#pragma once
#include <optional>
#include <string>

#include "record/inspection.hpp"

namespace exworks {

/// The inspection format that this library reads.
inline constexpr int inspection_format = 1;

/// Reads an inspection (rules/FORMAT.md). All mistakes are reported in one run; nothing is returned when there is one.
std::optional<Inspection> read_inspection(std::string text, const std::string& file, Diagnostics& diagnostics);

}  // namespace exworks
