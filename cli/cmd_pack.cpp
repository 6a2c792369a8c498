#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "compile/compiler.hpp"
#include "pack/pack_checks.hpp"
#include "pack/pack_reader.hpp"
#include "pack_verbs.hpp"
#include "report/page.hpp"
#include "verdict/expectations.hpp"

namespace exworks::cli {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

struct Options {
  std::string folder;
  bool json = false, quiet = false;
};

std::size_t count(const Diagnostics& d, Severity severity) {
  return static_cast<std::size_t>(std::count_if(d.all().begin(), d.all().end(), [&](const Diagnostic& x) { return x.severity == severity; }));
}

Json to_json(const Diagnostic& d) {
  return {{"severity", word(d.severity)}, {"file", d.place.file}, {"line", d.place.line}, {"column", d.place.column}, {"what", d.what}, {"remedy", d.remedy}};
}

int check(const Options& options) {
  Diagnostics diagnostics;
  const auto pack = read_pack(options.folder, diagnostics);
  if (pack) check_pack(*pack, diagnostics);
  if (options.json) {
    Json out = {{"folder", options.folder}, {"errors", count(diagnostics, Severity::error)}, {"warnings", count(diagnostics, Severity::warning)}, {"notes", count(diagnostics, Severity::note)}};
    out["diagnostics"] = Json::array();
    for (const Diagnostic& d : diagnostics.sorted()) out["diagnostics"].push_back(to_json(d));
    std::cout << out.dump(2) << '\n';
  } else {
    for (const Diagnostic& d : diagnostics.sorted()) {
      if (!options.quiet || d.severity != Severity::note) std::cout << to_text(d) << '\n';
    }
    std::cout << options.folder << ": " << count(diagnostics, Severity::error) << " errors, " << count(diagnostics, Severity::warning) << " warnings, " << count(diagnostics, Severity::note) << " notes\n";
  }
  return diagnostics.has_errors() ? answer_is_no : done;
}

Tables load_folder(const std::string& folder) {
  Diagnostics diagnostics;
  const auto pack = read_pack(folder, diagnostics);
  if (!pack) {
    print(diagnostics, false);
    throw BadInput{};
  }
  return compile(*pack);
}

std::vector<fs::path> reference_files(const std::string& folder) {
  std::vector<fs::path> files;
  const fs::path reference = fs::path(folder) / "reference";
  if (fs::is_directory(reference)) {
    for (const auto& entry : fs::directory_iterator(reference)) {
      if (entry.path().extension() == ".xml") files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Runs one reference vehicle; false when an expectation is not met.
bool run_reference(const Tables& tables, const fs::path& file, const Options& options, Json& out) {
  const Inspection inspection = load_inspection(file.string());
  Diagnostics diagnostics;
  const auto assessment = assess(tables, inspection, Settings{}, Given{}, diagnostics);
  std::vector<ExpectationResult> results;
  if (assessment) results = check_expectations(tables, inspection, *assessment, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) throw BadInput{};
  bool all = true;
  Json vehicle = {{"file", file.filename().string()}, {"vehicle", inspection.vehicle}, {"expectations", Json::array()}};
  std::string text;
  for (const ExpectationResult& r : results) {
    all = all && r.met;
    vehicle["expectations"].push_back({{"what", r.what}, {"met", r.met}, {"found", r.found}, {"source", r.expectation->source}});
    if (!r.met) {
      text += "  " + r.expectation->place.file + ":" + std::to_string(r.expectation->place.line) + ":" + std::to_string(r.expectation->place.column) + ": expected " + r.what +
              "; found " + r.found + " (" + r.expectation->source + (r.expectation->note.empty() ? "" : ": " + r.expectation->note) + ")\n";
    }
  }
  if (!options.json) std::cout << (all ? "met     " : "NOT MET ") << file.filename().string() << " (" << results.size() << " expectations)\n" << text;
  vehicle["met"] = all;
  out["vehicles"].push_back(std::move(vehicle));
  return all;
}

int test(const Options& options) {
  const Tables tables = load_folder(options.folder);
  Json out = {{"family", tables.family}, {"vehicles", Json::array()}};
  std::size_t failed = 0;
  const auto files = reference_files(options.folder);
  for (const fs::path& file : files) failed += run_reference(tables, file, options, out) ? 0 : 1;
  out["met"] = files.size() - failed;
  out["not_met"] = failed;
  if (options.json) std::cout << out.dump(2) << '\n';
  else std::cout << options.folder << ": " << files.size() - failed << " of " << files.size() << " reference vehicles as their descriptions say\n";
  return failed == 0 ? done : answer_is_no;
}

int show(const Options& options) {
  const Tables t = load_folder(options.folder);
  Json out = {{"family", t.family}, {"name", t.name}, {"version", t.version}, {"builds", t.builds()}, {"features", Json::array()}, {"numbers", Json::array()}};
  Page page(colour_wanted());
  page.heading(t.name + ", pack " + t.family + " " + t.version);
  page.paragraph(std::to_string(t.variants.size()) + " variants, " + std::to_string(t.markets.size()) + " markets, " + std::to_string(t.plants.size()) + " plants, " +
                 std::to_string(t.builds()) + " builds in " + std::to_string(t.cells()) + " cells, " + std::to_string(t.feature_index.size()) + " features");
  for (std::size_t p = 0; p < t.places.size(); ++p) {
    bool first = true;
    for (const FeatureInfo& f : t.features) {
      if (f.of_number || f.place != p) continue;
      if (first) page.heading(t.places[p].name);
      first = false;
      page.pair(f.id, f.ask, 2, 30, Page::Tone::plain);
      Json values = Json::array();
      for (const ValueInfo& v : f.values) {
        page.pair(v.id, v.name + (v.recognise.empty() ? "" : ": " + v.recognise), 6, 30);
        values.push_back({{"id", v.id}, {"name", v.name}, {"recognise", v.recognise}});
      }
      out["features"].push_back({{"id", f.id}, {"name", f.name}, {"ask", f.ask}, {"place", t.places[p].id}, {"weight", f.weight}, {"minutes", f.minutes}, {"values", values}});
    }
  }
  page.heading("Numbers");
  for (const NumberInfo& n : t.numbers) {
    page.pair(n.id, n.name + ": " + n.where, 2, 30);
    out["numbers"].push_back({{"id", n.id}, {"name", n.name}, {"where", n.where}});
  }
  std::cout << (options.json ? out.dump(2) + "\n" : page.text());
  return done;
}

void add_verb(CLI::App& group, const char* name, const char* help, const char* example, Action& action, int (*run)(const Options&)) {
  auto* verb = group.add_subcommand(name, help);
  auto options = std::make_shared<Options>();
  verb->add_option("FOLDER", options->folder, "the pack's folder, or the name of an installed pack")->required();
  verb->add_flag("--json", options->json, "print JSON");
  if (run == check) verb->add_flag("--quiet", options->quiet, "leave out the notes");
  verb->footer(std::string("Example: exworks pack ") + example + "\n" + exit_codes);
  verb->callback([options, &action, run] {
    action = [options, run] {
      // The name of an installed pack will do as well.
      const fs::path named = fs::path(rules_folder("")) / options->folder;
      std::error_code too_long;  // an absurd name is simply no folder
      if (!fs::is_directory(options->folder, too_long) && fs::is_directory(named, too_long)) options->folder = named.string();
      return run(*options);
    };
  });
}

}  // namespace

void add_pack(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("pack", "Read, check and test rule packs");
  group->require_subcommand(1);
  group->footer(std::string("Example: exworks pack show aldermoor-carrier\n") + exit_codes);
  add_verb(*group, "check", "Find every mistake in a pack, in one run", "check rules/aldermoor-carrier", action, check);
  add_verb(*group, "test", "Run a pack's reference vehicles against their published descriptions", "test rules/aldermoor-carrier", action, test);
  add_verb(*group, "show", "List a pack's features, values and numbers by where you stand", "show rules/aldermoor-carrier", action, show);
  add_pack_coverage(*group, action);
  add_pack_explain(*group, action);
  add_pack_timeline(*group, action);
  add_pack_table(*group, action);
  add_pack_new(*group, action);
  add_pack_diff(*group, action);
}

}  // namespace exworks::cli
