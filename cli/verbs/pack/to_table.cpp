#include <iostream>
#include <nlohmann/json.hpp>

#include "author/fact_table.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "verbs/pack/pack.hpp"

namespace exworks::cli {

int run(const PackToTableArguments& options) {
  refuse_existing(options.output, options.overwrite);
  const Pack pack = read_named_pack(options.input, options.rules);
  std::vector<std::string> lost;
  const std::string csv = table_from_pack(pack, &lost);
  if (!options.output.empty()) write_file(options.output, csv);
  else if (!options.json) std::cout << csv;
  if (options.json) std::cout << nlohmann::ordered_json{{"family", pack.id}, {"table", options.output.empty() ? csv : options.output}, {"not_carried", lost}}.dump(2) << '\n';
  for (const std::string& what : lost) std::cerr << "note: what the table can't carry: " << what << '\n';
  return done;
}

}  // namespace exworks::cli
