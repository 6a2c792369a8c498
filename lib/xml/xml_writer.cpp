#include "xml/xml_writer.hpp"

#include <pugixml.hpp>

#include <sstream>

namespace exworks {

namespace {

void add(pugi::xml_node parent, const XmlNode& node) {
  pugi::xml_node element = parent.append_child(node.name.c_str());
  for (const auto& [name, value] : node.attributes) element.append_attribute(name.c_str()).set_value(value.c_str());
  if (!node.text.empty()) element.text().set(node.text.c_str());
  for (const XmlNode& child : node.children) add(element, child);
}

}  // namespace

std::string write_xml(const XmlNode& root) {
  pugi::xml_document document;
  pugi::xml_node declaration = document.append_child(pugi::node_declaration);
  declaration.append_attribute("version").set_value("1.0");
  declaration.append_attribute("encoding").set_value("UTF-8");
  add(document, root);
  std::ostringstream out;
  document.save(out, "  ", pugi::format_indent, pugi::encoding_utf8);
  return out.str();
}

}  // namespace exworks
