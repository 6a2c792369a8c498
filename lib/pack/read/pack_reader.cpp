#include "pack/read/pack_reader.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "base/file.hpp"
#include "pack/read/pack_files.hpp"
#include "pack/read/reader_context.hpp"

namespace exworks {

namespace fs = std::filesystem;

std::optional<Pack> read_pack(const fs::path& folder, Diagnostics& diagnostics, const std::vector<fs::path>& rules) {
  const fs::path root = folder.filename().empty() ? folder.parent_path() : folder;
  std::error_code ignored;
  if (!fs::is_directory(root, ignored)) throw FileError{folder.string() + ": there is no such folder", "name the folder of a pack"};
  if (!fs::is_regular_file(root / "pack.xml", ignored)) throw FileError{(root / "pack.xml").string() + ": there is no such file", "a pack's folder holds a pack.xml"};
  Pack pack;
  PackFiles files(rules, diagnostics);
  if (!files.read(root, pack)) return std::nullopt;

  ReaderContext context{pack, diagnostics};
  context.additions = files.elements("add");
  context.of_format_1 = files.of_format_1();
  using Reader = void (*)(ReaderContext&, const Element&);
  static constexpr std::array<Reader, 19> readers{read_source, read_place, read_caution, read_term, read_rates, read_question, read_hallmark, read_market, read_plant, read_generation,
                                                  read_body, read_share, read_variant, read_volume, read_assembly, read_feature, read_assembly_change, read_conversion, read_number};
  for (std::size_t i = 0; i < readers.size(); ++i) {
    for (const Element& element : files.elements(PackFiles::order[i])) readers[i](context, element);
    if (PackFiles::order[i] == "feature") check_additions(context);
    if (PackFiles::order[i] != "variant") continue;
    context.axes_sound = !diagnostics.has_errors();
    if (pack.variants.empty()) break;  // every scope of the pack would be reported
  }
  if (pack.variants.empty() && !diagnostics.has_errors()) {
    diagnostics.error({(root / "pack.xml").string(), 1, 1}, "the pack has no variants", "write its markets, plants, generations, bodies and variants");
  }
  if (diagnostics.has_errors()) return std::nullopt;
  files.digest(context.requirement_files(), pack);
  return pack;
}

namespace {

std::vector<fs::path> folders_of(const fs::path& rules) {
  std::error_code ignored;
  if (!fs::is_directory(rules, ignored)) throw FileError{rules.string() + ": there is no such folder", "name the folder that holds the packs, with --rules"};
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(rules)) {
    // A link that leads round in a circle is no folder.
    if (entry.is_directory(ignored) && fs::exists(entry.path() / "pack.xml", ignored)) out.push_back(entry.path());
  }
  return out;
}

}  // namespace

std::vector<fs::path> pack_folders(const std::vector<fs::path>& rules) {
  std::map<std::string, fs::path> by_name;
  for (const fs::path& one : rules) {
    for (const fs::path& folder : folders_of(one)) by_name.emplace(folder.filename().string(), folder);
  }
  std::vector<fs::path> out;
  for (const auto& [name, folder] : by_name) out.push_back(folder);
  return out;
}

}  // namespace exworks
