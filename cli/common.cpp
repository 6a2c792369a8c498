#include <sys/auxv.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "base/file.hpp"
#include "base/text.hpp"
#include "command.hpp"
#include "compile/compiler.hpp"
#include "pack/pack_checks.hpp"
#include "pack/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "report/page.hpp"

namespace exworks::cli {

namespace fs = std::filesystem;

namespace {

/// From where this program stands; the kernel hands its path over at the start, so that no /proc is needed (a bare chroot has none).
std::string installed_rules() {
  const fs::path self = fs::weakly_canonical(reinterpret_cast<const char*>(getauxval(AT_EXECFN)));
  return fs::weakly_canonical(self.parent_path() / EXWORKS_RULES).string();
}

}  // namespace

std::string rules_folder(const std::string& option) {
  if (!option.empty()) return option;
  if (const char* env = std::getenv("EXWORKS_RULES"); env != nullptr && *env != '\0') return env;
  return installed_rules();
}

void print(const Diagnostics& diagnostics, bool all) {
  for (const Diagnostic& d : diagnostics.sorted()) {
    if (all || d.severity == Severity::error) std::cerr << harmless(to_text(d)) << '\n';
  }
}

Tables load_pack(const std::string& rules, const std::string& family) {
  std::vector<std::string> names;
  for (const fs::path& p : pack_folders(rules)) names.push_back(p.filename().string());
  if (std::find(names.begin(), names.end(), family) == names.end()) {
    throw FileError{"there is no pack '" + family + "' in " + rules, did_you_mean(family, names, "it has " + join_and(names))};
  }
  Diagnostics diagnostics;
  const auto pack = read_pack(fs::path(rules) / family, diagnostics);
  if (!pack) {
    print(diagnostics, false);
    throw BadInput{};
  }
  return compile(*pack);
}

Inspection load_inspection(const std::string& file) {
  const std::string text = file == "-" ? std::string(std::istreambuf_iterator<char>(std::cin), {}) : read_file(file);
  Diagnostics diagnostics;
  auto inspection = read_inspection(text, file == "-" ? "standard input" : file, diagnostics);
  print(diagnostics, true);
  if (!inspection) throw BadInput{};
  return *inspection;
}

bool colour_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  return isatty(STDOUT_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0') && (term == nullptr || std::string(term) != "dumb");
}

}  // namespace exworks::cli
