#pragma once
#include <string>

#include "assess/assessment.hpp"

/// What a stranger is not shown of a vehicle and its people. Decided on the data, for reports, the job book, its lists and its
/// exports; which words are somebody's own stands in base/personal.hpp.
namespace exworks {

/// What stands in a list in the place of a name or a note.
inline constexpr const char* withheld = "[withheld]";

/// The beginning of a number: three characters at the most, and never more than a third of it: "SMM…".
std::string withheld_number(const std::string& number);

/// Numbers, references, names, notes and photos out of an assessment and of the inspection that it is of, before a sentence is made.
void redact(Assessment& assessment, Inspection& inspection);

}  // namespace exworks
