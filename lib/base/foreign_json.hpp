#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

/// JSON that came from elsewhere: a bundle, a phone, a file. nlohmann/json copies and prints by recursion, so that what is nested some
/// hundred thousand deep would overrun the stack long after it was parsed; nothing of ours nests deeper than a dozen.
namespace exworks {

inline constexpr int deepest_json = 64;

/// A discarded value (`is_discarded()`) when the text is no JSON or nests deeper than `deepest_json`.
nlohmann::json parse_foreign(const std::string& text);

/// The same, with its names in the order of the text.
nlohmann::ordered_json parse_foreign_ordered(const std::string& text);

}  // namespace exworks
