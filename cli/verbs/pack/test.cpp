#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "verbs/pack/reference.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

using Options = PackTestArguments;

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

std::string at(const Place& p) { return p.file + ":" + std::to_string(p.line) + ":" + std::to_string(p.column); }

Json to_json(const std::string& file, const std::string& of, const ReferenceResult& r) {
  Json vehicle = {{"file", fs::path(file).filename().string()}, {"of", of}, {"vehicle", r.vehicle}, {"expectations", Json::array()}};
  for (const ReferenceLine& line : r.lines) vehicle["expectations"].push_back({{"what", line.what}, {"met", line.met}, {"found", line.found}, {"source", line.source}});
  vehicle["met"] = r.met;
  return vehicle;
}

void print_result(const std::string& file, const std::string& of, const ReferenceResult& r) {
  std::cout << (r.met ? "met     " : "NOT MET ") << fs::path(file).filename().string() << " (" << r.lines.size() << " expectations" << (of.empty() ? "" : ", of " + of) << ")\n";
  for (const ReferenceLine& line : r.lines) {
    if (!line.met) std::cout << "  " << at(line.place) << ": expected " << line.what << "; found " << line.found << " (" << line.source << (line.note.empty() ? "" : ": " + line.note) << ")\n";
  }
}

}  // namespace

/// Its own reference vehicles, and those of the packs that it extends: they are to come out as described by it too.
int run(const PackTestArguments& options) {
  const Rules rules = rules_folders(options.rules);
  const Pack pack = load_pack(pack_or_folder(options.folder, rules), rules);
  const Tables tables = tables_of(pack);
  Json out = {{"family", tables.family}, {"vehicles", Json::array()}};
  std::size_t all = 0, failed = 0;
  const auto vehicles_of = [&](const std::string& folder, const std::string& of) {
    for (const std::string& file : reference_vehicles(folder)) {
      const ReferenceResult result = run_reference(tables, file);
      ++all;
      failed += result.met ? 0 : 1;
      if (options.json) out["vehicles"].push_back(to_json(file, of.empty() ? pack.id : of, result));
      else print_result(file, of, result);
    }
  };
  vehicles_of(pack.folder, "");
  for (const BasePack& base : pack.extends) vehicles_of(base.folder, base.id);
  out["met"] = all - failed;
  out["not_met"] = failed;
  if (options.json) print_json(out);
  else std::cout << pack.folder << ": " << all - failed << " of " << all << " reference vehicles as their descriptions say\n";
  return failed == 0 ? done : answer_is_no;
}

}  // namespace exworks::cli
