#pragma once
#include <string>
#include <vector>

#include "compile/tables.hpp"
#include "report/document.hpp"

namespace exworks {

/// One self-contained page: no script, nothing fetched from elsewhere. Same document, same bytes.
std::string render_html(const Tables& tables, const Report& document);

/// The same blocks for a terminal or a plain mail, 80 columns; drawings as the sentence that says what they show.
std::string render_text(const Tables& tables, const Report& document);

/// The sources in the order in which they are first cited.
class Citations {
 public:
  /// "[1, 3]", or "" for none.
  std::string cite(const std::vector<std::size_t>& sources);
  std::vector<std::size_t> numbers(const std::vector<std::size_t>& sources);
  const std::vector<std::size_t>& cited() const { return cited_; }

 private:
  std::vector<std::size_t> cited_;
};

/// A source as it is listed: what is not published is said to be so, once.
std::string source_words(const SourceInfo& source);

/// "✓ as built", "✕ later change", "~ uncertain": the sign and the word that go with a colour.
std::string mark_sign(Mark mark);
std::string mark_word(Mark mark);

}  // namespace exworks
