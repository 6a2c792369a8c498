#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "author/fact_table.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "pack/check/pack_checks.hpp"
#include "pack/read/pack_reader.hpp"
#include "verbs/pack/verbs.hpp"
#include "words/english/english.hpp"

namespace exworks::cli {

namespace {

namespace fs = std::filesystem;

/// A folder beside the wanted one, in which the new pack is read back before it takes its place.
class Draft {
 public:
  explicit Draft(const fs::path& wanted) : folder_(wanted.parent_path() / ("." + wanted.filename().string() + ".part") / wanted.filename()) {
    std::error_code code;
    fs::remove_all(folder_.parent_path(), code);
    fs::create_directories(folder_, code);
    if (code) throw FileError{wanted.string() + ": the folder can't be made (" + code.message() + ")", "check the name and the rights of the folder above"};
  }
  ~Draft() {
    std::error_code code;
    fs::remove_all(folder_.parent_path(), code);
  }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  const fs::path& folder() const { return folder_; }

 private:
  fs::path folder_;
};

/// `text` with the places of the draft that it names turned into those of the table.
std::string at_the_table(std::string text, const std::string& draft, const TablePack& made) {
  for (std::size_t at = text.find(draft + ":"); at != std::string::npos; at = text.find(draft + ":", at + 1)) {
    const std::size_t line = at + draft.size() + 1, end = text.find_first_not_of("0123456789:", line);
    const std::size_t colon = text.find(':', line);
    const auto place = made.at_table(std::atoi(text.c_str() + line), colon == std::string::npos ? 1 : std::atoi(text.c_str() + colon + 1));
    if (!place) continue;
    const Place& p = *place;
    text.replace(at, (end == std::string::npos ? text.size() : end) - at, p.file + ":" + std::to_string(p.line) + ":" + std::to_string(p.column));
  }
  return text;
}

/// What the pack's own checks found, with the places of the table instead of those of the file made from it.
Diagnostics at_the_table(const Diagnostics& found, const std::string& draft, const TablePack& made) {
  Diagnostics out;
  for (const Diagnostic& d : found.all()) {
    const Place place = made.at_table(d.place.line, d.place.column).value_or(Place{made.places.empty() ? d.place.file : made.places.begin()->second.file, 0, 0});
    const std::string what = at_the_table(d.what, draft, made), remedy = at_the_table(d.remedy, draft, made);
    if (d.severity == Severity::error) out.error(place, what, remedy);
    else if (d.severity == Severity::warning) out.warning(place, what, remedy);
  }
  return out;
}

}  // namespace

int run(const PackFromTableArguments& options) {
  const fs::path folder = fs::path(options.output).has_filename() ? fs::absolute(options.output) : fs::absolute(options.output).parent_path();
  const std::string id = folder.filename().string();
  if (id_from_name(id) != id) {
    tell(options.output, ": the folder's name becomes the pack's id and can't be '", id, "'; use lower-case letters, digits and hyphens, such as ", (id_from_name(id).empty() ? "my-family" : id_from_name(id)));
    return bad_usage;
  }
  refuse_existing(folder / "pack.xml", options.overwrite);
  const std::string csv = options.input == "-" ? std::string(std::istreambuf_iterator<char>(std::cin), {}) : read_file(options.input);
  Diagnostics diagnostics;
  const TablePack made = pack_from_table(csv, options.input == "-" ? "standard input" : options.input, id, options.name.empty() ? id : options.name, diagnostics);
  std::size_t features = 0, facts = 0;
  if (!diagnostics.has_errors()) {
    const Draft draft(folder);
    write_file(draft.folder() / "pack.xml", made.xml);
    Diagnostics found;
    const auto pack = read_pack(draft.folder(), found);
    if (pack) check_pack(*pack, found);
    diagnostics = at_the_table(found, (draft.folder() / "pack.xml").string(), made);
    if (pack) {
      features = pack->features.size();
      for (const Feature& f : pack->features) facts += f.facts.size();
    }
  }
  print(diagnostics, true);
  if (diagnostics.has_errors()) return bad_input;
  std::error_code code;
  fs::create_directories(folder, code);
  write_file(folder / "pack.xml", made.xml);
  if (options.json) print_json(nlohmann::ordered_json{{"folder", options.output}, {"family", id}, {"features", features}, {"facts", facts}});
  else std::cout << options.output << ": a pack of " << counted(features, "feature") << " and " << counted(facts, "fact") << '\n';
  return done;
}
}  // namespace exworks::cli
