#include "report/render/html_writer.hpp"

#include "base/text.hpp"

namespace exworks {

namespace {

/// Length of a character that would reorder the text around it, or that HTML forbids; 0 for any other.
std::size_t unwelcome(std::string_view text, std::size_t i) {
  const auto byte = [&](std::size_t k) { return i + k < text.size() ? static_cast<unsigned char>(text[i + k]) : 0u; };
  const unsigned c = byte(0);
  if ((c < 0x20 && c != '\n' && c != '\t') || c == 0x7F) return 1;
  if (c == 0xC2 && byte(1) >= 0x80 && byte(1) < 0xA0) return 2;
  if (c == 0xE2 && byte(1) == 0x80 && byte(2) >= 0xAA && byte(2) <= 0xAE) return 3;
  if (c == 0xE2 && byte(1) == 0x81 && byte(2) >= 0xA6 && byte(2) <= 0xA9) return 3;
  return 0;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (const std::size_t n = unwelcome(text, i); n > 0) {
      out += "\xEF\xBF\xBD";
      i += n - 1;
      continue;
    }
    switch (text[i]) {
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '&': out += "&amp;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += text[i];
    }
  }
  return out;
}

bool may_link(std::string_view url) {
  return (url.starts_with("https://") || url.starts_with("http://")) && url.find_first_of(" \t\n<>\"'`") == std::string_view::npos;
}

void HtmlWriter::tag(std::string_view name, Attributes attributes, std::string_view end) {
  out_ += '<';
  out_ += name;
  for (const auto& [key, value] : attributes) {
    if (value.empty() && key != "alt") continue;
    out_ += ' ';
    out_ += key;
    out_ += "=\"";
    out_ += escaped(value);
    out_ += '"';
  }
  out_ += end;
}

HtmlWriter& HtmlWriter::open(std::string_view name, Attributes attributes) {
  tag(name, attributes, ">");
  return *this;
}

HtmlWriter& HtmlWriter::close(std::string_view name) {
  out_ += "</";
  out_ += name;
  out_ += '>';
  return *this;
}

HtmlWriter& HtmlWriter::empty(std::string_view name, Attributes attributes) { return open(name, attributes); }

HtmlWriter& HtmlWriter::shape(std::string_view name, Attributes attributes) {
  tag(name, attributes, "/>");
  return *this;
}

HtmlWriter& HtmlWriter::text(std::string_view words) {
  out_ += escaped(words);
  return *this;
}

HtmlWriter& HtmlWriter::element(std::string_view name, std::string_view words, Attributes attributes) { return open(name, attributes).text(words).close(name); }

HtmlWriter& HtmlWriter::markup(std::string_view made) {
  out_ += made;
  return *this;
}

}  // namespace exworks
