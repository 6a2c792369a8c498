#pragma once
#include <string_view>

/// Which parts of a job say who or where, in somebody's own words: what is withheld from strangers and what is forgotten on request.
namespace exworks {

/// A field of an answer: "note", "by", "photo", "file"
bool is_personal(std::string_view field);

/// What is said about a job as a whole: "owner", "name", "reference", "note", "by"
bool is_personal_about(std::string_view name);

}  // namespace exworks
