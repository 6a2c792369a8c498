#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"

namespace exworks {

namespace detail {
struct XmlDocument;
}

/// One element of a strictly read XML file; knows where it and each of its attributes stand. Cheap to copy;
/// keeps its file alive.
class Element {
 public:
  std::string name() const;
  /// The attribute's text with white space folded, or nothing when it is not there.
  std::optional<std::string> attribute(std::string_view name) const;
  bool has(std::string_view attribute) const;
  /// Valid as long as an element of the file is there.
  std::vector<std::string_view> attribute_names() const;
  std::vector<Element> children() const;
  /// The element's own text (not that of its children), white space folded.
  std::string text() const;

  Place place() const;
  /// Where the attribute's name stands; the element's place when there is no such attribute.
  Place place(std::string_view attribute) const;

 private:
  friend class XmlFile;
  std::shared_ptr<const detail::XmlDocument> document_;
  void* node_ = nullptr;  // pugi::xml_node_struct
};

/// Reads XML more strictly than the parser below it: refuses a DOCTYPE, entities other than the five built in,
/// duplicate attributes, more than one root, text outside the root, bytes that are not UTF-8, a byte-order mark and
/// nesting deeper than 32, each with its place.
class XmlFile {
 public:
  /// `name` is what messages call the file. Nothing is returned when the text is not usable; `diagnostics` says why.
  static std::optional<Element> parse(std::string text, std::string name, Diagnostics& diagnostics);
};

}  // namespace exworks
