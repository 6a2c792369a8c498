#pragma once
#include <map>
#include <string>

#include "base/diagnostic.hpp"
#include "record/inspection.hpp"
#include "report/model/report.hpp"
#include "book/book.hpp"

/// Photos as a report takes them in: JPEG or PNG by their first bytes, at most 12 MiB each. One that can't be taken in is
/// kept with no picture, and a warning says why.
namespace exworks {

/// The photos that an inspection names, by name; none from outside its folder.
std::map<std::string, ReportPhoto> load_photos(const Inspection& inspection, const std::string& file, Diagnostics& diagnostics);

/// The photos of a job: the book's own copies, by the names that they came with.
std::map<std::string, ReportPhoto> load_photos(Book& book, std::int64_t job, Diagnostics& diagnostics);

}  // namespace exworks
