#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"

namespace exworks {

struct Cell {
  std::string text;
  Place place;  ///< of its first character, counted in characters
};

using Row = std::vector<Cell>;

/// Comma-separated values after RFC 4180, in UTF-8: cells with commas, quotes or line ends stand in double quotes, a quote inside
/// is doubled. A byte-order mark is skipped, empty lines too. Whatever else is wrong is an error with its place.
std::vector<Row> read_csv(std::string_view text, const std::string& file, Diagnostics& diagnostics);

/// A cell as it is written: in quotes only where it must be.
std::string csv_cell(std::string_view text);

}  // namespace exworks
