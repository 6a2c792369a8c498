#include <sys/auxv.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <iterator>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "report/render/page.hpp"

namespace exworks::cli {

namespace fs = std::filesystem;

namespace {

/// From where this program stands; the kernel hands its path over at the start, so that no /proc is needed (a bare chroot has none).
std::string installed_rules() {
  const fs::path self = fs::weakly_canonical(reinterpret_cast<const char*>(getauxval(AT_EXECFN)));
  return fs::weakly_canonical(self.parent_path() / EXWORKS_RULES).string();
}

/// $XDG_DATA_HOME/exworks/rules, else ~/.local/share/exworks/rules; "" when neither variable is set.
fs::path private_rules() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && *data == '/') return fs::path(data) / "exworks/rules";
  const char* home = std::getenv("HOME");
  return home != nullptr && *home != '\0' ? fs::path(home) / ".local/share/exworks/rules" : fs::path();
}

}  // namespace

Rules rules_folders(const std::string& option) {
  if (!option.empty()) return {option};
  if (const char* env = std::getenv("EXWORKS_RULES"); env != nullptr && *env != '\0') return {env};
  std::error_code ignored;
  const fs::path own = private_rules();
  if (!own.empty() && fs::is_directory(own, ignored)) return {own, installed_rules()};
  return {installed_rules()};
}

std::string words(const Rules& rules) {
  std::vector<std::string> names;
  for (const fs::path& r : rules) names.push_back(r.string());
  return join_and(names);
}

std::optional<Pack> read_pack_among(const fs::path& folder, const Rules& rules, Diagnostics& diagnostics) {
  Rules bases = rules;
  bases.emplace_back(installed_rules());
  return read_pack(folder, diagnostics, bases);
}

std::string find_pack_folder(const std::string& named, const Rules& rules) {
  std::error_code too_long;  // an absurd name is simply no folder
  if (fs::is_directory(named, too_long)) return named;
  if (named.find('/') != std::string::npos) throw FileError{named + ": there is no such folder", "name the folder of a pack"};
  std::vector<std::string> names;
  for (const fs::path& p : pack_folders(rules)) {
    if (p.filename() == named) return p.string();
    names.push_back(p.filename().string());
  }
  throw FileError{"there is no pack '" + named + "' in " + words(rules) + ", and no such folder", did_you_mean(named, names, "there are " + join_and(names))};
}

Pack read_pack_folder(const std::string& folder, const Rules& rules) {
  Diagnostics diagnostics;
  auto pack = read_pack_among(folder, rules, diagnostics);
  if (!pack) {
    print(diagnostics, false);
    throw BadInput{};
  }
  return std::move(*pack);
}

Pack read_named_pack(const std::string& named, const std::string& rules_option) {
  const Rules rules = rules_folders(rules_option);
  return read_pack_folder(find_pack_folder(named, rules), rules);
}

Tables compile_pack(const Pack& pack) {
  Diagnostics diagnostics;
  auto tables = compile(pack, diagnostics);
  if (!tables) {
    print(diagnostics, false);
    throw BadInput{};
  }
  return std::move(*tables);
}

Tables load_pack(const Rules& rules, const std::string& family) {
  std::vector<std::string> names;
  for (const fs::path& p : pack_folders(rules)) {
    if (p.filename() == family) return compile_pack(read_pack_folder(p.string(), rules));
    names.push_back(p.filename().string());
  }
  throw FileError{"there is no pack '" + family + "' in " + words(rules), did_you_mean(family, names, "it has " + join_and(names))};
}

std::vector<Tables> load_every_pack(const Rules& rules) {
  std::vector<Pack> packs;
  std::set<std::string> extended;
  for (const fs::path& folder : pack_folders(rules)) {
    packs.push_back(read_pack_folder(folder.string(), rules));
    for (const BasePack& base : packs.back().extends) extended.insert(fs::weakly_canonical(base.folder).string());
  }
  std::vector<Tables> out;
  for (const Pack& pack : packs) {
    // What extends it says all that it says: the two would only share the odds.
    if (!extended.contains(fs::weakly_canonical(pack.folder).string())) out.push_back(compile_pack(pack));
  }
  return out;
}

void print(const Diagnostics& diagnostics, bool all) {
  std::vector<Diagnostic> shown;
  for (const Diagnostic& d : diagnostics.sorted()) {
    if (all || d.severity == Severity::error) shown.push_back(d);
  }
  const std::size_t left = cut_to_gravest(shown, message_limit);
  for (const Diagnostic& d : shown) std::cerr << harmless(to_text(d)) << '\n';
  if (left > 0) std::cerr << "and " << left << " more\n";
}

Inspection load_inspection(const std::string& file) {
  const std::string text = file == "-" ? std::string(std::istreambuf_iterator<char>(std::cin), {}) : read_file(file);
  Diagnostics diagnostics;
  auto inspection = read_inspection(text, file == "-" ? "standard input" : file, diagnostics);
  print(diagnostics, true);
  if (!inspection) throw BadInput{};
  return *inspection;
}

void refuse_existing(const std::filesystem::path& file, bool overwrite) {
  if (!overwrite && !file.empty() && std::filesystem::exists(file)) throw FileError{file.string() + ": there is already such a file", "give --overwrite to replace it, or another name"};
}

bool colour_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  return isatty(STDOUT_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0') && (term == nullptr || std::string(term) != "dumb");
}

}  // namespace exworks::cli
