#include "pack/read/pack_files.hpp"

#include <algorithm>

#include "base/file.hpp"
#include "base/sha256.hpp"
#include "base/text.hpp"
#include "pack/read/pack_reader.hpp"
#include "xml/tabs.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t shared_kinds = 6;  ///< of PackFiles::order, which a shared part may hold

std::string resolved(const fs::path& path) {
  std::error_code ignored;
  const fs::path out = fs::weakly_canonical(path, ignored);
  return (out.empty() ? path : out).string();
}

}  // namespace

std::size_t PackFiles::index_of(std::string_view name) {
  return static_cast<std::size_t>(std::find(order.begin(), order.end(), name) - order.begin());
}

bool PackFiles::read(const fs::path& folder, Pack& pack) {
  bool complete = true;
  top_ = read_stack(folder, pack, complete);
  return complete;
}

PackFiles::ByName PackFiles::read_stack(const fs::path& folder, Pack& pack, bool& complete) {
  visited_.insert(resolved(folder));
  Layer layer;
  read_layer(folder, pack, layer);
  complete = complete && layer.complete;
  pack.folder = folder.string();
  read_.push_back({std::move(layer.files), std::move(layer.requirements)});
  if (layer.extends.empty()) {
    if (layer.complete) refuse_lonely(layer.elements);
    return std::move(layer.elements);
  }
  const auto below = base_folder(folder, layer);
  if (!below) {
    complete = false;
    return std::move(layer.elements);
  }
  Pack base;
  ByName elements = read_stack(*below, base, complete);
  pack.invented = pack.invented || base.invented;
  pack.extends = base.extends;
  pack.extends.insert(pack.extends.begin(), {base.id, base.name, base.version, "", base.folder});
  lay_over(elements, std::move(layer.elements), base.id);
  return elements;
}

void PackFiles::read_layer(const fs::path& folder, Pack& pack, Layer& layer) {
  std::vector<fs::path> files;
  std::error_code code;
  const fs::directory_iterator entries(folder, code);
  if (code) throw FileError{folder.string() + ": the folder can't be read", "check who may read it"};
  for (const auto& entry : entries) {
    if (entry.path().extension() == ".xml" && !is_special(entry)) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end(), [](const fs::path& a, const fs::path& b) {
    return std::pair{a.filename() != "pack.xml", a} < std::pair{b.filename() != "pack.xml", b};
  });
  for (const fs::path& file : files) read_file_of_pack(file, folder, pack, layer);
}

std::optional<Element> PackFiles::parse(const fs::path& file, Layer& layer) {
  std::string text = read_file(file);
  layer.files += sha256(text) + "\n";
  const std::string name = file.lexically_normal().string();
  warn_of_tabs(text, name, diagnostics_);
  return XmlFile::parse(std::move(text), name, diagnostics_);
}

bool PackFiles::good_format(const Attributes& a) {
  const std::string format = a.text("format");
  if (format == "1") of_format_1_.insert(a.element().place().file);
  if (format == std::to_string(pack_format) || format == "1" || format.empty()) return true;
  diagnostics_.error(a.element().place("format"), "the file has format '" + format + "'; this program reads formats 1 and " + std::to_string(pack_format),
                     "update the program, or use an edition of the pack written for it");
  return false;
}

void PackFiles::read_head(const Element& root, const fs::path& folder, const Attributes& a, Pack& pack, Layer& layer) {
  pack.id = a.id();
  pack.name = a.text("name");
  pack.version = a.text("version");
  pack.invented = a.choice("status", {"real", "invented"}, "real") == "invented";
  layer.root = root;
  if (a.has("extends")) {
    layer.extends = a.text("extends");
    layer.complete = layer.complete && !layer.extends.empty();
  }
  const std::string folder_name = fs::weakly_canonical(folder).filename().string();
  if (!pack.id.empty() && pack.id != folder_name) diagnostics_.error(root.place("id"), "the pack is called '" + pack.id + "' but its folder '" + folder_name + "'", "give both the same name");
}

void PackFiles::read_file_of_pack(const fs::path& file, const fs::path& folder, Pack& pack, Layer& layer) {
  const bool before = layer.complete;
  layer.complete = false;
  const auto root = parse(file, layer);
  if (!root) return;
  if (root->name() != "pack") {
    diagnostics_.error(root->place(), "the root element is '" + root->name() + "'", "a file in a pack's folder begins with <pack format=\"1\" id=\"...\">");
    return;
  }
  const bool main = file.filename() == "pack.xml";
  const Attributes a = main ? Attributes(*root, diagnostics_, {"format", "id", "name", "version", "status", "extends"}) : Attributes(*root, diagnostics_, {"format", "id"});
  if (!good_format(a)) return;
  layer.complete = before;
  if (main) {
    read_head(*root, folder, a, pack, layer);
  } else if (const std::string id = a.id(); !pack.id.empty() && !id.empty() && id != pack.id) {
    diagnostics_.error(root->place("id"), "this file belongs to pack '" + id + "', pack.xml to '" + pack.id + "'", "write the same id, or move the file");
  }
  sort_children(*root, file, false, layer);
}

void PackFiles::sort_children(const Element& root, const fs::path& file, bool shared, Layer& layer) {
  for (const Element& child : root.children()) {
    const std::size_t index = index_of(child.name());
    if (index == order.size() || (shared && index >= shared_kinds)) {
      const auto end = shared ? order.begin() + shared_kinds : order.end();
      unknown_element(child, std::vector<std::string>(order.begin(), end), diagnostics_);
      layer.complete = false;
    } else if (child.name() == "include") {
      include(child, file, layer);
    } else {
      layer.elements[index].push_back(child);
      if (child.name() == "feature" || child.name() == "add") name_requirements(child, layer);
    }
  }
}

void PackFiles::name_requirements(const Element& feature, Layer& layer) {
  for (const Element& line : feature.children()) {
    if (line.name() == "legal") layer.requirements.push_back(line.attribute("requirement").value_or(""));
  }
}

void PackFiles::digest(RequirementFiles& law, Pack& pack) {
  std::string below;
  for (std::size_t i = read_.size(); i-- > 0;) {
    std::set<std::string> drawn_on;
    Diagnostics reported;  // by the lines that name them
    for (const std::string& id : read_[i].requirements) {
      if (const auto found = law.find(id, reported)) drawn_on.insert(found->market->digest);
    }
    std::string list = read_[i].files;
    for (const std::string& file : drawn_on) list += "law " + file + "\n";
    if (!below.empty()) list += "extends " + below + "\n";
    below = sha256(list);
    (i == 0 ? pack.digest : pack.extends[i - 1].digest) = below;
  }
}

void PackFiles::include(const Element& element, const fs::path& from, Layer& layer) {
  const Attributes a(element, diagnostics_, {"href"});
  const std::string href = a.text("href");
  if (href.empty()) return;
  const fs::path target = (from.parent_path() / href).lexically_normal();
  const auto [seen, fresh] = included_.try_emplace(resolved(target));
  if (!fresh) {  // two files of the pack, or it and its base, may both ask for it
    layer.files += seen->second;
    return;
  }
  const bool before = layer.complete;
  layer.complete = false;
  if (std::error_code ignored; !fs::is_regular_file(target, ignored)) {
    diagnostics_.error(element.place("href"), "there is no file '" + target.string() + "' to include", "correct the path; it counts from this file's folder");
    return;
  }
  const std::size_t so_far = layer.files.size();
  const auto root = parse(target, layer);
  seen->second = layer.files.substr(so_far);
  if (!root) return;
  if (root->name() != "shared") {
    diagnostics_.error(element.place("href"), "'" + target.string() + "' is no shared part", "its root must be <shared format=\"1\">");
    return;
  }
  const Attributes r(*root, diagnostics_, {"format"});
  if (!good_format(r)) return;
  layer.complete = before;
  sort_children(*root, target, true, layer);
}

std::optional<fs::path> PackFiles::base_folder(const fs::path& folder, const Layer& layer) {
  std::vector<fs::path> places{folder.has_parent_path() ? folder.parent_path() : fs::path(".")};
  places.insert(places.end(), rules_.begin(), rules_.end());
  std::vector<std::string> known, looked;
  for (const fs::path& place : places) {
    std::error_code ignored;
    const fs::path there = place / layer.extends;
    const bool plain_name = layer.extends.find('/') == std::string::npos;
    // A private pack may have the name of the one that it extends: then it is the next one of that name.
    if (plain_name && fs::is_regular_file(there / "pack.xml", ignored) && !visited_.contains(resolved(there))) return there;
    if (std::find(looked.begin(), looked.end(), place.string()) == looked.end()) looked.push_back(place.string());
    for (const auto& entry : fs::directory_iterator(place, ignored)) {
      if (fs::is_regular_file(entry.path() / "pack.xml", ignored) && !visited_.contains(resolved(entry.path()))) known.push_back(entry.path().filename().string());
    }
  }
  diagnostics_.error(layer.root->place("extends"), "there is no pack '" + layer.extends + "' to extend in " + join_and(looked),
                     did_you_mean(layer.extends, known, "name an installed pack, or put the two folders side by side"));
  return std::nullopt;
}

/// Lines of a pack that extends another take the place of those they override; the others come after those of the base.
void PackFiles::lay_over(ByName& below, ByName own, const std::string& base) {
  for (std::size_t kind = 0; kind < order.size(); ++kind) {
    for (const Element& element : own[kind]) {
      if (!element.has("overrides")) {
        below[kind].push_back(element);
        continue;
      }
      override_one(below[kind], element, base);
      if (order[kind] != "feature") continue;
      std::erase_if(below[index_of("add")], [&](const Element& add) { return add.attribute("feature") == element.attribute("id"); });
    }
  }
}

void PackFiles::override_one(std::vector<Element>& below, const Element& own, const std::string& base) {
  const std::string id = *own.attribute("overrides");
  std::vector<std::string> known;
  for (const Element& e : below) known.push_back(e.attribute("id").value_or(""));
  const auto at = std::find(known.begin(), known.end(), id);
  if (at == known.end()) {
    diagnostics_.error(own.place("overrides"), "pack '" + base + "' has no " + own.name() + " '" + id + "' to override", did_you_mean(id, known, "see exworks pack show " + base));
    return;
  }
  if (own.attribute("id") != id) {
    diagnostics_.error(own.place("overrides"), "this " + own.name() + " overrides '" + id + "' but has another id", "write id=\"" + id + "\": other lines refer to it");
  }
  below[static_cast<std::size_t>(at - known.begin())] = own;
}

/// What makes sense only in a pack that extends another.
void PackFiles::refuse_lonely(ByName& own) {
  for (const auto& kind : own) {
    for (const Element& element : kind) {
      if (element.name() == "add") diagnostics_.error(element.place(), "this pack extends no other, so there is nothing to add to", "write the lines inside the feature, or extends=\"...\" on the pack");
      else if (element.has("overrides")) diagnostics_.error(element.place("overrides"), "this pack extends no other, so there is nothing to override", "change the line itself, or write extends=\"...\" on the pack");
    }
  }
  own[index_of("add")].clear();
}

}  // namespace exworks
