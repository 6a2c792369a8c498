#pragma once
#include <cstddef>
#include <string>
#include <string_view>

/// Singular and plural, "a" and "an".
namespace exworks {

/// The word for `n` of them: `one` for 1, else `many`, or `one` with an s.
std::string plural(std::size_t n, std::string_view one, std::string_view many = {});
/// "1 feature", "2 features", "3 entries"
std::string counted(std::size_t n, std::string_view one, std::string_view many = {});
/// "is" for 1, else "are".
std::string_view is_or_are(std::size_t n);
std::string_view was_or_were(std::size_t n);

/// "a van", "an estate car", "an MGB GT", "a Utility": by how it is spoken, letters of an abbreviation one by one.
std::string with_article(std::string_view words);

}  // namespace exworks
