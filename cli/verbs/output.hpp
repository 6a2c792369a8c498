#pragma once
#include <string>

/// The file that a report or a sheet is written to.
namespace exworks::cli {

/// Where the output goes, checked before the work is done: the ending (html, pdf, txt) and whether the file may be written.
/// Throws FileError when it exists and `overwrite` is not set.
std::string output_kind(const std::string& file, bool overwrite);

/// Writes the page in the form that the file's ending asks for.
void write_output(const std::string& file, const std::string& kind, const std::string& html, const std::string& text);

}  // namespace exworks::cli
