#pragma once
#include <string>
#include <string_view>

namespace exworks {

/// Text for a terminal: lines of at most 80 columns, colour only where asked for and never alone.
class Page {
 public:
  static constexpr std::size_t width = 80;
  enum class Tone { plain, strong, good, bad, doubt, faint };

  explicit Page(bool colour) : colour_(colour) {}

  void heading(std::string_view text);
  /// Wrapped text, every line indented.
  void paragraph(std::string_view text, std::size_t indent = 2, Tone tone = Tone::plain);
  /// A label in a fixed column and wrapped text beside it.
  void pair(std::string_view label, std::string_view text, std::size_t indent = 2, std::size_t column = 16, Tone tone = Tone::plain);
  /// Text at the left and a figure at the right edge.
  void leader(std::string_view left, std::string_view right, std::size_t indent = 2, Tone tone = Tone::plain);
  void blank();
  const std::string& text() const { return text_; }

 private:
  void wrapped(std::string_view text, std::size_t first_used, std::size_t indent, Tone tone);
  std::string toned(std::string_view text, Tone tone) const;
  bool colour_;
  std::string text_;
};

/// Columns that UTF-8 text takes on a terminal, a code point a column.
std::size_t columns_of(std::string_view text);

/// Control characters (and the escape that starts a terminal command) replaced, so that a note can't steer a terminal.
std::string harmless(std::string_view text);

}  // namespace exworks
