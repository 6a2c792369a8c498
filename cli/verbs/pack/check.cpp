#include <algorithm>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/text.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/check/pack_checks.hpp"
#include "pack/check/publish_checks.hpp"
#include "record/inspection_reader.hpp"
#include "verbs/pack/reference.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

using Options = PackCheckArguments;

using Json = nlohmann::ordered_json;

std::size_t count(const std::vector<Diagnostic>& all, Severity severity) {
  return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](const Diagnostic& d) { return d.severity == severity; }));
}

std::string counts(const std::vector<Diagnostic>& all) {
  const auto one = [&](Severity severity) {
    const std::size_t n = count(all, severity);
    return std::to_string(n) + " " + std::string(word(severity)) + (n == 1 ? "" : "s");
  };
  return one(Severity::error) + ", " + one(Severity::warning) + ", " + one(Severity::note);
}

/// What is wrong with the pack alone: whoever extends another can't mend what was said of that one already.
std::vector<Diagnostic> but_those_of_the_base(const Pack& pack, const Rules& rules, std::vector<Diagnostic> found) {
  Diagnostics of_base;
  const auto base = read_pack_among(pack.extends.front().folder, rules, of_base);
  if (base) check_pack(*base, of_base);
  std::erase_if(found, [&](const Diagnostic& d) {
    return std::any_of(of_base.all().begin(), of_base.all().end(), [&](const Diagnostic& b) { return to_text(b) == to_text(d); });
  });
  return found;
}

void reference_vehicles_met(const Pack& pack, Diagnostics& diagnostics) {
  const Tables tables = tables_of(pack);
  const auto files = reference_vehicles(pack.folder);
  for (const std::string& file : files) {
    for (const ReferenceLine& line : run_reference(tables, file).lines) {
      if (!line.met) diagnostics.warning(line.place, "expected " + line.what + ", found " + line.found, "correct the pack where its sources allow, never to please the vehicle; else say in a note why");
    }
  }
  if (pack.extends.empty() && files.size() < enough_reference_vehicles) {
    diagnostics.warning({pack.folder, 0, 0}, "the pack has " + std::to_string(files.size()) + " reference vehicles", "write at least " + std::to_string(enough_reference_vehicles) + ", each from a published description, into reference/");
  }
}

std::vector<std::string> sources_of_the_vehicles(const Pack& pack) {
  std::vector<std::string> out;
  for (const std::string& file : reference_vehicles(pack.folder)) {
    Diagnostics ignored;
    const auto inspection = read_inspection(read_file(file), file, ignored);
    if (!inspection) continue;
    for (const Expectation& e : inspection->expectations) {
      for (const std::string& id : split_words(e.source)) out.push_back(id);
    }
  }
  return out;
}

void strictly(const Pack& pack, const Options& options, const Rules& rules, Diagnostics& diagnostics) {
  check_for_publishing(pack, sources_of_the_vehicles(pack), diagnostics);
  if (!options.since.empty()) check_version(pack, load_pack(options.since, rules), diagnostics);
  reference_vehicles_met(pack, diagnostics);
}

Json to_json(const Diagnostic& d) {
  return {{"severity", word(d.severity)}, {"file", d.place.file}, {"line", d.place.line}, {"column", d.place.column}, {"what", d.what}, {"remedy", d.remedy}};
}

void show_json(const Options& options, const std::vector<Diagnostic>& found, bool good) {
  Json out = {{"folder", options.folder}, {"errors", count(found, Severity::error)}, {"warnings", count(found, Severity::warning)}, {"notes", count(found, Severity::note)}};
  if (options.strict) out["fit_to_publish"] = good;
  out["diagnostics"] = Json::array();
  for (const Diagnostic& d : found) out["diagnostics"].push_back(to_json(d));
  print_json(out);
}

void show_text(const Options& options, const std::vector<Diagnostic>& found, bool good) {
  std::vector<Diagnostic> shown = found;
  if (options.quiet) std::erase_if(shown, [](const Diagnostic& d) { return d.severity == Severity::note; });
  const std::size_t left = options.all ? 0 : cut_to_gravest(shown, message_limit);
  for (const Diagnostic& d : shown) std::cout << to_text(d) << '\n';
  if (left > 0) std::cout << "and " << left << " more; --all shows them\n";
  std::cout << options.folder << ": " << counts(found);
  if (options.strict) std::cout << (good ? "; fit to publish" : "; not yet fit to publish");
  std::cout << '\n';
}

}  // namespace

int run(const PackCheckArguments& options) {
  if (!options.since.empty() && !options.strict) {
    tell("--since goes with --strict; add it");
    return bad_usage;
  }
  const Rules rules = rules_folders(options.rules);
  const std::string folder = pack_or_folder(options.folder, rules).string();
  Diagnostics diagnostics;
  const auto pack = read_pack_among(folder, rules, diagnostics);
  if (pack) check_pack(*pack, diagnostics);
  if (pack && options.strict && !diagnostics.has_errors()) strictly(*pack, options, rules, diagnostics);
  std::vector<Diagnostic> found = diagnostics.sorted();
  if (pack && !pack->extends.empty()) found = but_those_of_the_base(*pack, rules, std::move(found));
  const bool good = !diagnostics.has_errors() && (!options.strict || count(found, Severity::warning) == 0);
  options.json ? show_json(options, found, good) : show_text(options, found, good);
  return good ? done : answer_is_no;
}

}  // namespace exworks::cli
