#include "workshop/packs.hpp"

#include <algorithm>
#include <exception>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

/// The folder of the pack of this name; when there is none, what there is instead.
std::optional<fs::path> find_pack(const std::string& family, const Rules& rules, std::vector<std::string>& names) {
  for (const fs::path& p : pack_folders(rules.folders)) {
    if (p.filename() == family) return p;
    names.push_back(p.filename().string());
  }
  return std::nullopt;
}

FileError no_pack(const std::string& family, const Rules& rules, const std::vector<std::string>& names, const std::string& also) {
  return {"there is no pack '" + family + "' in " + words(rules) + also, did_you_mean(family, names, names.empty() ? "it has none" : "there are " + join_and(names))};
}

}  // namespace

std::string words(const Rules& rules) {
  std::vector<std::string> names;
  for (const fs::path& folder : rules.folders) names.push_back(folder.string());
  return join_and(names);
}

fs::path pack_folder(const std::string& family, const Rules& rules) {
  std::vector<std::string> names;
  if (const auto found = find_pack(family, rules, names)) return *found;
  throw no_pack(family, rules, names, "");
}

fs::path pack_or_folder(const std::string& named, const Rules& rules) {
  std::error_code too_long;  // an absurd name is simply no folder
  const bool is_folder = fs::is_directory(named, too_long);
  if (named.find('/') != std::string::npos) {
    if (!is_folder) throw FileError{named + ": there is no such folder", "name the folder of a pack"};
    return named;
  }
  std::vector<std::string> names;
  if (const auto found = find_pack(named, rules, names)) return *found;
  if (is_folder) return named;
  throw no_pack(named, rules, names, ", and no such folder");
}

std::optional<Pack> read_pack_among(const fs::path& folder, const Rules& rules, Diagnostics& diagnostics) {
  std::vector<fs::path> bases = rules.folders;
  if (!rules.installed.empty() && std::find(bases.begin(), bases.end(), rules.installed) == bases.end()) bases.push_back(rules.installed);
  return read_pack(folder, diagnostics, bases);
}

Pack load_pack(const fs::path& folder, const Rules& rules) {
  Diagnostics diagnostics;
  auto pack = read_pack_among(folder, rules, diagnostics);
  if (!pack) throw Mistakes{errors_among(diagnostics)};
  return std::move(*pack);
}

Tables tables_of(const Pack& pack) {
  Diagnostics diagnostics;
  auto tables = compile(pack, diagnostics);
  if (!tables) throw Mistakes{errors_among(diagnostics)};
  return std::move(*tables);
}

Tables load_tables(const std::string& family, const Rules& rules) { return tables_of(load_pack(pack_folder(family, rules), rules)); }

std::vector<Tables> load_every_tables(const Rules& rules) {
  std::vector<Pack> packs;
  std::set<std::string> extended;
  for (const fs::path& folder : pack_folders(rules.folders)) {
    packs.push_back(load_pack(folder, rules));
    for (const BasePack& base : packs.back().extends) extended.insert(fs::weakly_canonical(base.folder).string());
  }
  std::vector<Tables> out;
  for (const Pack& pack : packs) {
    if (!extended.contains(fs::weakly_canonical(pack.folder).string())) out.push_back(tables_of(pack));
  }
  return out;
}

Packs::Slot& Packs::slot_of(const std::string& family) {
  const std::lock_guard lock(mutex_);
  return slots_[family];
}

const Tables& Packs::get(const std::string& family) {
  Slot& slot = slot_of(family);
  std::call_once(slot.once, [&] {
    try {
      slot.tables = std::make_unique<const Tables>(load_(family, rules_));
    } catch (...) {
      slot.why_not = std::current_exception();
    }
  });
  if (slot.why_not) std::rethrow_exception(slot.why_not);
  return *slot.tables;
}

}  // namespace exworks
