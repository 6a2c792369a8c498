#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace exworks {

/// A spot in a file that a person wrote. Lines and columns count from 1; 0 means "the whole file".
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

enum class Severity { note, warning, error };

/// One thing to tell the author of a file: where, what is wrong, what to do.
struct Diagnostic {
  Severity severity = Severity::error;
  Place place;
  std::string what;
  std::string remedy;
};

/// `file:line:column: what; remedy`, with "note: " or "warning: " before what is no error.
std::string to_text(const Diagnostic& diagnostic);

/// Leaves the `limit` most serious of the messages, in the order that they had; returns how many were cut.
std::size_t cut_to_gravest(std::vector<Diagnostic>& messages, std::size_t limit);

/// Collects everything that is wrong with a set of files in one run, so that an author sees all of it at once.
class Diagnostics {
 public:
  void error(Place place, std::string what, std::string remedy);
  void warning(Place place, std::string what, std::string remedy);
  void note(Place place, std::string what, std::string remedy);
  void append(const Diagnostics& other);

  bool has_errors() const { return errors_ > 0; }
  std::size_t error_count() const { return errors_; }
  /// In order of file, line and column.
  std::vector<Diagnostic> sorted() const;
  const std::vector<Diagnostic>& all() const { return all_; }

 private:
  void add(Severity severity, Place place, std::string what, std::string remedy);
  std::vector<Diagnostic> all_;
  std::size_t errors_ = 0;
};

std::string_view word(Severity severity);

/// The errors alone.
Diagnostics errors_among(const Diagnostics& diagnostics);
/// All of them as text, in order, a line each without an end after the last.
std::string lines_of(const Diagnostics& diagnostics);

/// Thrown when something that a person wrote has mistakes, so that the work can't go on (exit code 3 of the command).
struct Mistakes {
  Diagnostics found;
};

/// One mistake that has no place in a file: an option, a word of the command line, an entry.
Mistakes mistake(std::string what, std::string remedy);

}  // namespace exworks
