#include <iostream>
#include <nlohmann/json.hpp>

#include "author/fact_table.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

int run(const PackToTableArguments& options) {
  refuse_existing(options.output, options.overwrite);
  const Rules rules = rules_folders(options.rules);
  const Pack pack = load_pack(pack_or_folder(options.input, rules), rules);
  std::vector<std::string> lost;
  const std::string csv = table_from_pack(pack, &lost);
  if (!options.output.empty()) write_file(options.output, csv);
  else if (!options.json) std::cout << csv;
  if (options.json) print_json(nlohmann::ordered_json{{"family", pack.id}, {"table", options.output.empty() ? csv : options.output}, {"not_carried", lost}});
  for (const std::string& what : lost) tell("note: what the table can't carry: ", what);
  return done;
}

}  // namespace exworks::cli
