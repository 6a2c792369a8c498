#pragma once
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

namespace exworks {

/// The only place where text becomes markup: whatever comes in as text or as an attribute is shown as written and is
/// never read as markup. Serves HTML and the SVG drawings.
class HtmlWriter {
 public:
  using Attributes = std::initializer_list<std::pair<std::string_view, std::string_view>>;

  HtmlWriter& open(std::string_view tag, Attributes attributes = {});
  HtmlWriter& close(std::string_view tag);
  /// An element without content: `<hr>`.
  HtmlWriter& empty(std::string_view tag, Attributes attributes = {});
  /// An SVG element without content: `<path .../>`.
  HtmlWriter& shape(std::string_view tag, Attributes attributes);
  HtmlWriter& text(std::string_view words);
  HtmlWriter& element(std::string_view tag, std::string_view words, Attributes attributes = {});
  HtmlWriter& line() { return markup("\n"); }
  /// Markup made by another HtmlWriter, or the style sheet.
  HtmlWriter& markup(std::string_view made);

  const std::string& str() const { return out_; }

 private:
  void tag(std::string_view name, Attributes attributes, std::string_view end);
  std::string out_;
};

/// `<`, `>`, `&` and both quotes as character references; control characters and direction overrides as a replacement sign.
std::string escaped(std::string_view text);

/// An address that may stand in a link: http or https. Any other is shown as text only.
bool may_link(std::string_view url);

}  // namespace exworks
