#pragma once
#include <string>
#include <string_view>

#include "assess/assessment.hpp"

/// What a stranger is not shown of a vehicle and its people. It is decided here alone, on the data, for reports, the job book, its lists
/// and its exports.
namespace exworks {

/// What stands in a list in the place of a name or a note.
inline constexpr const char* withheld = "[withheld]";

/// The beginning of a number: three characters at the most, and never more than a third of it: "SMM…".
std::string withheld_number(const std::string& number);

/// Does this field of an answer say who or where, in somebody's own words? "note", "by", "photo", "file"
bool is_personal(std::string_view field);

/// And what is said about a job as a whole: "owner", "name", "reference", "note", "by"
bool is_personal_about(std::string_view name);

/// Numbers, references, names, notes and photos out of an assessment and of the inspection that it is of, before a sentence is made.
void redact(Assessment& assessment, Inspection& inspection);

}  // namespace exworks
