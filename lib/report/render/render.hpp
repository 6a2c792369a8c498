#pragma once
#include <string>

#include "engine/tables/tables.hpp"
#include "report/model/document.hpp"

namespace exworks {

/// One self-contained page: no script, nothing fetched from elsewhere. Same document, same bytes.
std::string render_html(const Tables& tables, const Report& document);

/// The same blocks for a terminal or a plain mail, 80 columns; drawings as the sentence that says what they show.
std::string render_text(const Tables& tables, const Report& document, bool colour = false);

/// "✓ as built", "✕ later change", "~ uncertain": the sign and the word that go with a colour.
std::string mark_sign(Mark mark);
std::string mark_word(Mark mark);

}  // namespace exworks
