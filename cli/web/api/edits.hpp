#pragma once
#include "web/api/context.hpp"

/// What a page sends, read with care: known kinds and fields, plain text of a reasonable length, and nothing that the inspection's
/// reader or the pack would refuse. Everything throws Refusal.
namespace exworks::cli::web {

/// A text field of a JSON object, runs of white space folded; "" when it is not there.
std::string text_of(const Json& object, const char* name, std::size_t longest);

void check_edit_name(const std::string& tap);

/// {entries: [{tap, kind, name, fields|null, seen}]}
std::vector<Edit> edits_of(const Json& body);

/// Refuses entries that would not read as an inspection, or use words that the pack doesn't know.
void refuse_mistakes(const Tables& tables, const std::string& family, const std::vector<Entry>& entries);

}  // namespace exworks::cli::web
