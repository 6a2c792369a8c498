#pragma once
#include <string>
#include <utility>
#include <vector>

namespace exworks {

/// An element to be written: what the reader of xml_file.hpp reads back.
struct XmlNode {
  std::string name;
  std::vector<std::pair<std::string, std::string>> attributes;  ///< those with an empty text are left out
  std::string text;
  std::vector<XmlNode> children;

  void set(const std::string& attribute, const std::string& value) {
    if (!value.empty()) attributes.emplace_back(attribute, value);
  }
};

/// The whole file, in UTF-8, two spaces an indent, a line an element.
std::string write_xml(const XmlNode& root);

}  // namespace exworks
