#pragma once
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "record/inspection.hpp"
#include "book/book.hpp"

/// Between an inspection's XML and the book's entries. An entry keeps the element's attributes as they were written.
namespace exworks {

/// Entries of an inspection; warnings and notes go to `remarks`. Throws Mistakes.
std::vector<Entry> entries_of_xml(const std::string& xml, const std::string& file, Diagnostics& remarks);

/// The inspection that these entries say. `redact` leaves out the owner's words and the ends of numbers.
std::string xml_of_entries(const std::vector<Entry>& entries, bool redact);

/// The job as it stands in the book. Mistakes become diagnostics, and nothing is returned.
std::optional<Inspection> inspection_of_job(Book& book, std::int64_t job, Diagnostics& diagnostics);

/// The name of an entry that has no key of its own (a claim, a document, a date code): a digest of all that it says.
std::string name_by_content(const Fields& fields);

Entry about(const std::string& name, const std::string& value);
/// What an `about` entry says now, or "".
std::string about_value(const std::vector<Entry>& entries, const std::string& name);

}  // namespace exworks
