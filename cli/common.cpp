#include <sys/auxv.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "record/inspection_reader.hpp"
#include "report/render/page.hpp"
#include "user_folder.hpp"

namespace exworks::cli {

namespace fs = std::filesystem;

namespace {

/// From where this program stands; the kernel hands its path over at the start, so that no /proc is needed (a bare chroot has none).
std::string installed_rules() {
  const fs::path self = fs::weakly_canonical(reinterpret_cast<const char*>(getauxval(AT_EXECFN)));
  return fs::weakly_canonical(self.parent_path() / EXWORKS_RULES).string();
}

/// "" when the user has no folder of data.
fs::path private_rules() {
  const auto data = user_folder("XDG_DATA_HOME", ".local/share");
  return data ? *data / "exworks/rules" : fs::path();
}

}  // namespace

Rules rules_folders(const std::string& option) {
  const fs::path installed = installed_rules();
  if (!option.empty()) return {{option}, installed};
  if (const char* env = std::getenv("EXWORKS_RULES"); env != nullptr && *env != '\0') return {{env}, installed};
  std::error_code ignored;
  const fs::path own = private_rules();
  if (!own.empty() && fs::is_directory(own, ignored)) return {{own, installed}, installed};
  return {{installed}, installed};
}

void tell_lines(const std::string& text) {
  std::string out;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    out += harmless(std::string_view(text).substr(at, end - at)) + '\n';
    at = end + 1;
  }
  std::cerr << out;
}

void print(const Diagnostics& diagnostics, bool all) {
  std::vector<Diagnostic> shown;
  for (const Diagnostic& d : diagnostics.sorted()) {
    if (all || d.severity == Severity::error) shown.push_back(d);
  }
  const std::size_t left = cut_to_gravest(shown, message_limit);
  for (const Diagnostic& d : shown) tell(harmless(to_text(d)));
  if (left > 0) tell("and ", left, " more");
}

Inspection load_inspection(const std::string& file) {
  const std::string text = file == "-" ? read_stream(std::cin, "standard input") : read_file(file);
  Diagnostics diagnostics;
  auto inspection = read_inspection(text, file == "-" ? "standard input" : file, diagnostics);
  print(diagnostics, true);
  if (!inspection) throw BadInput{};
  return *inspection;
}

void refuse_existing(const std::filesystem::path& file, bool overwrite) {
  if (!overwrite && !file.empty() && std::filesystem::exists(file)) throw FileError{file.string() + ": there is already such a file", "give --overwrite to replace it, or another name"};
}

void print_json(const nlohmann::ordered_json& result) { std::cout << result.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) << '\n'; }

bool colour_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  return isatty(STDOUT_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0') && (term == nullptr || std::string(term) != "dumb");
}

}  // namespace exworks::cli
