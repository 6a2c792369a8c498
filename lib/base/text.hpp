#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace exworks {

/// Words of `text` between spaces, tabs and line ends.
std::vector<std::string> split_words(std::string_view text);

/// Leading, trailing and repeated white space folded to single spaces.
std::string fold_space(std::string_view text);

/// Insertions, deletions, replacements and swaps of neighbours that turn `a` into `b`
/// (restricted Damerau-Levenshtein distance).
int edit_distance(std::string_view a, std::string_view b);

/// The candidate that is nearest to `word`, or "" when none is near enough to be what was meant.
std::string nearest(std::string_view word, const std::vector<std::string>& candidates);

/// The remedy for a word that is none of `known`: "did you mean '...'?" with the nearest, else `otherwise`.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known, const std::string& otherwise);

/// Does `text` match `pattern`, in which `*` stands for any run of characters?
bool glob_match(std::string_view pattern, std::string_view text);

/// Two capital letters, as the codes of ISO 3166-1 are.
bool is_country(std::string_view text);

/// Capital letters for ASCII; other bytes unchanged.
std::string upper(std::string_view text);

/// The first letter a capital, if it is one of a to z.
std::string upper_first(std::string text);

/// "a, b and c"; "a, b; c; and d" where an item has a comma of its own
std::string join_and(const std::vector<std::string>& items);

/// "a, b or c"; "a, b; c; or d"
std::string join_or(const std::vector<std::string>& items);

/// Is `text` well-formed UTF-8 without the characters that XML 1.0 forbids?
bool is_clean_utf8(std::string_view text, std::size_t* bad_offset = nullptr);

}  // namespace exworks
