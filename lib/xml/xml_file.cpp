#include "xml/xml_file.hpp"

#include <algorithm>
#include <pugixml.hpp>

#include "base/text.hpp"

namespace exworks {

namespace detail {

struct XmlDocument {
  std::string name;
  std::string text;  // our own copy: the parser does not keep places of attributes
  std::vector<std::size_t> line_starts;
  std::vector<std::size_t> inner_bytes;  // [block of 256 bytes]: bytes before it that are not the first of their character
  pugi::xml_document tree;

  void find_lines() {
    line_starts.push_back(0);
    std::size_t inner = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (i % block == 0) inner_bytes.push_back(inner);
      if (text[i] == '\n') line_starts.push_back(i + 1);
      inner += is_inner(text[i]) ? 1 : 0;
    }
    inner_bytes.push_back(inner);
  }

  Place place_at(std::size_t offset) const {
    offset = std::min(offset, text.size());
    const auto after = std::upper_bound(line_starts.begin(), line_starts.end(), offset);
    const auto line = static_cast<std::size_t>(after - line_starts.begin());
    const std::size_t start = line_starts[line - 1];
    const std::size_t inner = offset - start <= block ? count_inner(start, offset) : inner_before(offset) - inner_before(start);
    return {name, static_cast<int>(line), static_cast<int>(offset - start - inner) + 1};
  }

 private:
  static constexpr std::size_t block = 256;
  static bool is_inner(char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; }

  std::size_t count_inner(std::size_t from, std::size_t to) const {
    const auto at = [&](std::size_t i) { return text.begin() + static_cast<std::ptrdiff_t>(i); };
    return static_cast<std::size_t>(std::count_if(at(from), at(to), is_inner));
  }

  std::size_t inner_before(std::size_t offset) const { return inner_bytes[offset / block] + count_inner(offset / block * block, offset); }
};

namespace {

bool name_char(char c) {
  return c != '=' && c != '>' && c != '/' && c != ' ' && c != '\t' && c != '\n' && c != '\r' && c != '<';
}

/// Offset of the `<` of an element; the parser points one past it.
std::size_t start_of(pugi::xml_node node) {
  const auto offset = node.offset_debug();
  return offset > 0 ? static_cast<std::size_t>(offset) - 1 : 0;
}

/// Walks the attributes of the start tag at `offset`: calls seen(name, name_offset, value) for each.
template <class Seen>
void scan_start_tag(const std::string& text, std::size_t offset, Seen seen) {
  std::size_t i = offset + 1;
  while (i < text.size() && name_char(text[i])) ++i;
  while (i < text.size() && text[i] != '>') {
    if (!name_char(text[i])) {
      ++i;
      continue;
    }
    const std::size_t name_start = i;
    while (i < text.size() && name_char(text[i])) ++i;
    const std::string_view name(text.data() + name_start, i - name_start);
    while (i < text.size() && text[i] != '"' && text[i] != '\'') ++i;
    if (i >= text.size()) return;
    const char quote = text[i++];
    const std::size_t value_start = i;
    while (i < text.size() && text[i] != quote) ++i;
    seen(name, name_start, std::string_view(text.data() + value_start, i - value_start));
    ++i;
  }
}

/// Where to send the author: to the start of a closing tag that doesn't match, not into the middle of its name.
std::size_t fault_offset(const std::string& text, const pugi::xml_parse_result& result) {
  const auto offset = std::min(static_cast<std::size_t>(result.offset), text.size());
  if (result.status != pugi::status_end_element_mismatch || offset == text.size()) return offset;
  const std::size_t tag = text.rfind("</", offset);
  return tag != std::string::npos && text.find('>', tag) >= offset ? tag : offset;
}

class StrictCheck {
 public:
  StrictCheck(const XmlDocument& document, Diagnostics& diagnostics) : document_(document), diagnostics_(diagnostics) {}

  void run() {
    top_level();
    entities();
    for (pugi::xml_node n : document_.tree.children()) element(n, 1);
  }

 private:
  void top_level() {
    int roots = 0;
    for (pugi::xml_node n : document_.tree.children()) {
      const Place place = document_.place_at(start_of(n));
      if (n.type() == pugi::node_doctype) {
        diagnostics_.error(document_.place_at(document_.text.rfind("<!DOCTYPE", start_of(n))), "a DOCTYPE is not allowed", "delete it; the format has no entities of its own");
      } else if (n.type() == pugi::node_element && ++roots == 2) {
        diagnostics_.error(place, "a second root element '" + std::string(n.name()) + "'", "a file has one root; move it inside or into another file");
      } else if (n.type() == pugi::node_pcdata && !fold_space(n.value()).empty()) {
        diagnostics_.error(document_.place_at(document_.text.find_first_not_of(" \t\r\n", static_cast<std::size_t>(n.offset_debug()))), "text outside the root element", "delete it or put it in a comment");
      }
    }
    if (roots == 0) diagnostics_.error({document_.name, 1, 1}, "there is no element in the file", "write the root element");
  }

  void entities() {
    const std::string& t = document_.text;
    for (std::size_t i = 0; i < t.size(); ++i) {
      if (t[i] == '<') {
        if (t.compare(i, 4, "<!--") == 0) i = std::min(t.find("-->", i), t.size() - 1);
        else if (t.compare(i, 9, "<![CDATA[") == 0) i = std::min(t.find("]]>", i), t.size() - 1);
      } else if (t[i] == '&') {
        const std::size_t end = t.find(';', i);
        const std::string name = end == std::string::npos || end - i > 12 ? "" : t.substr(i + 1, end - i - 1);
        const bool built_in = name == "amp" || name == "lt" || name == "gt" || name == "quot" || name == "apos";
        if (!built_in && !good_reference(name)) {
          diagnostics_.error(document_.place_at(i), "'&' does not begin one of the five built-in entities or a character number", "write &amp; for the sign itself");
        }
      }
    }
  }

  static bool good_reference(const std::string& name) {
    if (name.size() < 2 || name[0] != '#') return false;
    const bool hex = name[1] == 'x';
    const std::string digits = name.substr(hex ? 2 : 1);
    const char* allowed = hex ? "0123456789abcdefABCDEF" : "0123456789";
    if (digits.empty() || digits.size() > 6 || digits.find_first_not_of(allowed) != std::string::npos) return false;
    const unsigned long code = std::stoul(digits, nullptr, hex ? 16 : 10);
    return code == 9 || code == 10 || code == 13 || (code >= 0x20 && code < 0xD800) || (code > 0xDFFF && code <= 0x10FFFF && code != 0xFFFE && code != 0xFFFF);
  }

  void element(pugi::xml_node n, int depth) {
    if (n.type() != pugi::node_element) return;
    const std::size_t offset = start_of(n);
    if (depth > 32) {
      diagnostics_.error(document_.place_at(offset), "elements are nested deeper than 32", "no file of this format is; check the closing tags");
      return;
    }
    std::vector<std::string_view> names;
    scan_start_tag(document_.text, offset, [&](std::string_view name, std::size_t at, std::string_view value) {
      if (std::find(names.begin(), names.end(), name) != names.end()) {
        diagnostics_.error(document_.place_at(at), "attribute '" + std::string(name) + "' is given twice", "keep one of them");
      }
      if (value.find('<') != std::string_view::npos) {
        diagnostics_.error(document_.place_at(at), "'<' stands inside the value of '" + std::string(name) + "'", "close the quote, or write &lt;");
      }
      names.push_back(name);
    });
    for (pugi::xml_node c : n.children()) element(c, depth + 1);
  }

  const XmlDocument& document_;
  Diagnostics& diagnostics_;
};

}  // namespace
}  // namespace detail

namespace {
pugi::xml_node node_of(void* p) { return pugi::xml_node(static_cast<pugi::xml_node_struct*>(p)); }
}  // namespace

std::optional<Element> XmlFile::parse(std::string text, std::string name, Diagnostics& diagnostics) {
  auto document = std::make_shared<detail::XmlDocument>();
  document->name = std::move(name);
  document->text = std::move(text);
  const std::string& t = document->text;
  document->find_lines();
  const std::size_t errors_before = diagnostics.error_count();
  if (t.starts_with("\xEF\xBB\xBF")) {
    diagnostics.error({document->name, 1, 1}, "the file begins with a byte-order mark", "save it as UTF-8 without one");
    return std::nullopt;
  }
  std::size_t bad = 0;
  if (!is_clean_utf8(t, &bad)) {
    diagnostics.error(document->place_at(bad), "this byte is not UTF-8 text", "save the file as UTF-8");
    return std::nullopt;
  }
  const unsigned options = pugi::parse_default | pugi::parse_doctype | pugi::parse_fragment;
  const pugi::xml_parse_result result = document->tree.load_buffer(t.data(), t.size(), options, pugi::encoding_utf8);
  if (!result) {
    diagnostics.error(document->place_at(detail::fault_offset(t, result)), std::string("this is not well-formed XML: ") + result.description(),
                      "check the tags and quotes here and just before");
    return std::nullopt;
  }
  detail::StrictCheck(*document, diagnostics).run();
  if (diagnostics.error_count() > errors_before) return std::nullopt;
  Element root;
  root.node_ = document->tree.document_element().internal_object();
  root.document_ = std::move(document);
  return root;
}

std::string Element::name() const { return node_of(node_).name(); }

std::optional<std::string> Element::attribute(std::string_view name) const {
  for (pugi::xml_attribute a : node_of(node_).attributes()) {
    if (name == a.name()) return fold_space(a.value());
  }
  return std::nullopt;
}

bool Element::has(std::string_view name) const {
  for (pugi::xml_attribute a : node_of(node_).attributes()) {
    if (name == a.name()) return true;
  }
  return false;
}

std::vector<std::string_view> Element::attribute_names() const {
  std::vector<std::string_view> names;
  for (pugi::xml_attribute a : node_of(node_).attributes()) names.emplace_back(a.name());
  return names;
}

std::vector<Element> Element::children() const {
  std::vector<Element> out;
  for (pugi::xml_node n : node_of(node_).children()) {
    if (n.type() != pugi::node_element) continue;
    Element e;
    e.document_ = document_;
    e.node_ = n.internal_object();
    out.push_back(std::move(e));
  }
  return out;
}

std::string Element::text() const {
  std::string all;
  for (pugi::xml_node n : node_of(node_).children()) {
    if (n.type() == pugi::node_pcdata || n.type() == pugi::node_cdata) all += std::string(n.value()) + ' ';
  }
  return fold_space(all);
}

Place Element::place() const { return document_->place_at(detail::start_of(node_of(node_))); }

Place Element::place(std::string_view attribute) const {
  const std::size_t start = detail::start_of(node_of(node_));
  std::size_t found = start;
  detail::scan_start_tag(document_->text, start, [&](std::string_view name, std::size_t at, std::string_view) {
    if (name == attribute) found = at;
  });
  return document_->place_at(found);
}

}  // namespace exworks
