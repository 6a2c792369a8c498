#include "report/render/page.hpp"

#include "base/text.hpp"

namespace exworks {

std::size_t columns_of(std::string_view text) {
  std::size_t n = 0;
  for (char c : text) n += (static_cast<unsigned char>(c) & 0xC0u) != 0x80u ? 1 : 0;
  return n;
}

namespace {
/// After the byte E2: marks and overrides of direction (U+200E, F, U+202A to E, U+2066 to 9) and separators of lines (U+2028, 9).
bool steers(unsigned char second, unsigned char third) {
  if (second == 0x80) return third == 0x8E || third == 0x8F || (third >= 0xA8 && third <= 0xAE);
  return second == 0x81 && third >= 0xA6 && third <= 0xA9;
}
}  // namespace

std::string harmless(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c < 0x20 || c == 0x7F) {
      out += c == '\n' || c == '\t' ? " " : "?";
    } else if (c == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0) {  // C1 control characters
      out += '?';
      ++i;
    } else if (c == 0xE2 && i + 2 < text.size() && steers(static_cast<unsigned char>(text[i + 1]), static_cast<unsigned char>(text[i + 2]))) {
      out += '?';
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string Page::toned(std::string_view text, Tone tone) const {
  if (!colour_ || tone == Tone::plain) return std::string(text);
  const char* code = tone == Tone::strong ? "1" : tone == Tone::good ? "34" : tone == Tone::bad ? "31" : tone == Tone::doubt ? "33" : "2";
  return "\x1b[" + std::string(code) + "m" + std::string(text) + "\x1b[0m";
}

void Page::blank() {
  if (!text_.empty() && !text_.ends_with("\n\n")) text_ += '\n';
}

void Page::heading(std::string_view text) {
  blank();
  wrapped(text, 0, 0, Tone::strong);
}

void Page::wrapped(std::string_view text, std::size_t used, std::size_t indent, Tone tone) {
  std::string line;
  std::size_t at = used;
  for (std::string word : split_words(harmless(text))) {
    while (columns_of(word) > width - indent) {  // a word that no line can hold
      std::size_t cut = width - indent - (line.empty() ? 0 : columns_of(line) + 1);
      if (cut < 8) {
        text_ += toned(line, tone) + "\n" + std::string(indent, ' ');
        line.clear();
        cut = width - indent;
      }
      std::size_t bytes = 0;
      for (std::size_t n = 0; bytes < word.size(); ++bytes) {
        if ((static_cast<unsigned char>(word[bytes]) & 0xC0u) != 0x80u && n++ == cut) break;
      }
      text_ += toned(line + (line.empty() ? "" : " ") + word.substr(0, bytes), tone) + "\n" + std::string(indent, ' ');
      line.clear();
      word.erase(0, bytes);
      at = indent;
    }
    const std::size_t need = columns_of(word) + (line.empty() ? 0 : 1);
    if (at + need > width) {
      text_ += toned(line, tone) + "\n" + std::string(indent, ' ');
      line = word;
      at = indent + columns_of(word);
    } else {
      line += (line.empty() ? "" : " ") + word;
      at += need;
    }
  }
  text_ += toned(line, tone) + "\n";
}

void Page::paragraph(std::string_view text, std::size_t indent, Tone tone) {
  text_ += std::string(indent, ' ');
  wrapped(text, indent, indent, tone);
}

void Page::pair(std::string_view label, std::string_view text, std::size_t indent, std::size_t column, Tone tone) {
  if (text.empty()) return paragraph(label, indent, tone);
  const std::string head = harmless(label);
  text_ += std::string(indent, ' ') + head;
  const std::size_t used = indent + columns_of(head);
  const std::size_t gap = used < column ? column - used : 1;
  text_ += std::string(gap, ' ');
  wrapped(text, used + gap, column, tone);
}

void Page::leader(std::string_view left, std::string_view right, std::size_t indent, Tone tone) {
  if (right.empty()) return paragraph(left, indent, tone);
  const std::string l = harmless(left);
  const std::size_t used = indent + columns_of(l) + columns_of(right);
  if (used + 1 > width) {
    paragraph(left, indent, tone);
    text_ += std::string(width - columns_of(right), ' ');
  } else {
    text_ += std::string(indent, ' ') + toned(l, tone) + std::string(width - used, ' ');
  }
  text_ += std::string(right) + "\n";
}

}  // namespace exworks
