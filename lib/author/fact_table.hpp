#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "pack/model/pack.hpp"

/// A pack as a table, one fact a row: feature,value,variants,markets,from,to,fitted,source.
///
/// Rows whose feature is `market` or `variant` name the axes: value is its name, and for a variant from/to its production window.
/// Names become ids ("Headlamp position" is headlamp-position); `id: Name` gives another id. `variants` and `markets` list ids with
/// spaces, empty for all. `fitted` is standard, `option 0.2`, `dealer 0.1` or `standard 0.5`. `source` is `trade`, `memory` or
/// `title | publisher | year or URL`; several are divided by `;`.
namespace exworks {

inline constexpr const char* table_columns[] = {"feature", "value", "variants", "markets", "from", "to", "fitted", "source"};

/// The text of a pack.xml, and where in the table its lines and their attributes come from.
struct TablePack {
  std::string xml;
  std::map<int, Place> places;
  std::map<int, std::map<std::string, Place>> cells;  ///< by line and attribute

  /// The spot of the table that a spot of `xml` comes from: a cell where that is known, else the row; nothing for what every pack has.
  std::optional<Place> at_table(int line, int column) const;
};

/// Reads the table and writes it as a pack. All mistakes are reported; the pack's own rules are checked by reading it back.
TablePack pack_from_table(std::string_view csv, const std::string& file, const std::string& id, const std::string& name, Diagnostics& diagnostics);

/// The way back, in the pack's order. What the table can't carry is counted in `lost`, in words.
std::string table_from_pack(const Pack& pack, std::vector<std::string>* lost);

/// Lower case, digits and hyphens: "Headlamp position" is "headlamp-position"; "" when nothing is left.
std::string id_from_name(std::string_view name);

/// A date edge as rules/FORMAT.md writes it.
std::string edge_text(const Edge& edge);

}  // namespace exworks
