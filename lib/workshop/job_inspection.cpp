#include "workshop/job_inspection.hpp"

#include <set>

#include "base/sha256.hpp"
#include "base/personal.hpp"
#include "base/text.hpp"
#include "record/inspection_reader.hpp"
#include "words/redaction.hpp"
#include "xml/xml_file.hpp"
#include "xml/xml_writer.hpp"

namespace exworks {

namespace {

/// Which attribute tells one element from another of its kind; the others are told apart by all that they say.
std::string key_of(const std::string& element) { return element == "observed" ? "feature" : element == "number" ? "id" : ""; }

Entry entry_of(const Element& e) {
  Entry entry;
  entry.kind = e.name();
  entry.fields = Fields{};
  for (const std::string_view name : e.attribute_names()) (*entry.fields)[std::string(name)] = e.attribute(name).value_or("");
  if (!e.text().empty() && entry.fields->count("note") == 0) (*entry.fields)["note"] = e.text();
  if (const std::string key = key_of(entry.kind); !key.empty()) {
    entry.name = entry.fields->at(key);
    entry.fields->erase(key);
  } else {
    entry.name = name_by_content(*entry.fields);
  }
  return entry;
}

void add_vehicle(const Element& vehicle, std::vector<Entry>& out) {
  for (const char* name : {"name", "reference", "country"}) {
    if (const auto value = vehicle.attribute(name)) out.push_back(about(name, *value));
  }
  std::string note;
  for (const Element& child : vehicle.children()) note += (note.empty() ? "" : " ") + child.text();
  if (!note.empty()) out.push_back(about("note", note));
}

/// The book holds one entry of a feature at a time; a second in the same file would hide the first.
void refuse_twins(const std::vector<Entry>& entries, const std::string& file) {
  std::set<std::pair<std::string, std::string>> seen;
  Diagnostics d;
  for (const Entry& e : entries) {
    if (seen.emplace(e.kind, e.name).second || key_of(e.kind).empty()) continue;
    d.error({file, 0, 0}, e.kind + " '" + e.name + "' is in the inspection twice", "keep one of the two");
  }
  if (d.has_errors()) throw Mistakes{std::move(d)};
}

XmlNode node_of(const Entry& e, bool redact) {
  XmlNode node{e.kind, {}, "", {}};
  if (const std::string key = key_of(e.kind); !key.empty()) node.set(key, e.name);
  for (auto [name, value] : *e.fields) {
    if (redact && is_personal(name)) continue;
    node.set(name, redact && name == "text" ? withheld_number(value) : value);
  }
  return node;
}

}  // namespace

std::string name_by_content(const Fields& fields) {
  std::string all;
  for (const auto& [name, value] : fields) all += name + "=" + value + "\n";
  return sha256(all).substr(0, 12);
}

Entry about(const std::string& name, const std::string& value) { return {"about", name, Fields{{"value", value}}, "", "", false, false, 0}; }

std::string about_value(const std::vector<Entry>& entries, const std::string& name) {
  for (const Entry& e : entries) {
    if (e.kind == "about" && e.name == name && e.fields && e.fields->count("value")) return e.fields->at("value");
  }
  return "";
}

std::vector<Entry> entries_of_xml(const std::string& xml, const std::string& file, Diagnostics& remarks) {
  Diagnostics d;
  if (!read_inspection(xml, file, d)) throw Mistakes{std::move(d)};
  remarks.append(d);
  const auto root = XmlFile::parse(xml, file, d);
  std::vector<Entry> out;
  for (const char* name : {"family", "date", "by"}) {
    if (const auto value = root->attribute(name)) out.push_back(about(name, *value));
  }
  for (const Element& e : root->children()) {
    // Expectations belong to reference vehicles, not to a job.
    if (e.name() == "vehicle") add_vehicle(e, out);
    else if (e.name() != "expect") out.push_back(entry_of(e));
  }
  refuse_twins(out, file);
  return out;
}

std::string xml_of_entries(const std::vector<Entry>& entries, bool redact) {
  XmlNode root{"inspection", {{"format", std::to_string(inspection_format)}}, "", {}};
  for (const char* name : {"family", "date", "by"}) {
    if (!redact || !is_personal_about(name)) root.set(name, about_value(entries, name));
  }
  XmlNode vehicle{"vehicle", {}, "", {}};
  if (!redact) {
    vehicle.set("name", about_value(entries, "name"));
    vehicle.set("reference", about_value(entries, "reference"));
    if (const std::string note = about_value(entries, "note"); !note.empty()) vehicle.children.push_back({"note", {}, note, {}});
  }
  vehicle.set("country", about_value(entries, "country"));
  if (!vehicle.attributes.empty() || !vehicle.children.empty()) root.children.push_back(vehicle);
  for (const Entry& e : entries) {
    if (e.kind != "about" && e.kind != "photo" && e.fields) root.children.push_back(node_of(e, redact));
  }
  return write_xml(root);
}

std::optional<Inspection> inspection_of_job(Book& book, std::int64_t job, Diagnostics& diagnostics) {
  return read_inspection(xml_of_entries(book.entries(job), false), "job " + std::to_string(job), diagnostics);
}

}  // namespace exworks
