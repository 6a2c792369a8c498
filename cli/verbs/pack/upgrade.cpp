#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>
#include <set>

#include "author/upgrade.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

int run(const PackUpgradeArguments& options) {
  namespace fs = std::filesystem;
  const Rules rules = rules_folders(options.rules);
  const fs::path folder = pack_or_folder(options.folder, rules);
  load_pack(folder, rules);  // what can't be read is not rewritten
  std::set<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".xml") files.insert(entry.path());
  }
  // All is worked out before the first file is written, so that what can't be read leaves the pack as it was.
  std::vector<std::pair<fs::path, Upgraded>> upgraded;
  for (const fs::path& file : files) {
    if (Upgraded done_to = upgraded_pack_file(read_file(file)); done_to.rewritten) upgraded.emplace_back(file, std::move(done_to));
  }
  nlohmann::ordered_json all = nlohmann::ordered_json::array();
  for (const auto& [file, done_to] : upgraded) {
    write_file(file, done_to.text);
    all.push_back({{"file", file.string()}, {"dropped", done_to.dropped}});
    if (options.json) continue;
    std::cout << file.string() << '\n';
    for (const std::string& what : done_to.dropped) std::cout << "  dropped " << what << '\n';
  }
  if (options.json) print_json({{"files", all}});
  else if (all.empty()) std::cout << "The pack is of format 2 already.\n";
  return done;
}

}  // namespace exworks::cli
