#include <iostream>
#include <nlohmann/json.hpp>

#include "author/pack_diff.hpp"
#include "compile/compiler.hpp"
#include "pack_verbs.hpp"
#include "report/page.hpp"
#include "verdict/assessment.hpp"

namespace exworks::cli {

namespace {

using Json = nlohmann::ordered_json;

struct Options {
  std::string before, after, rules;
  std::vector<std::string> vehicles;
  bool json = false;
};

/// One answer about a vehicle that the new edition gives otherwise.
struct Moved {
  std::string what, was, is;
};

Assessment assess_or_stop(const Tables& tables, const Inspection& inspection) {
  Diagnostics diagnostics;
  Settings settings;
  settings.fit_draws = 0;
  settings.hinges = settings.readings = false;
  auto assessment = assess(tables, inspection, settings, Given{}, diagnostics);
  print(diagnostics, false);
  if (!assessment) throw BadInput{};
  return std::move(*assessment);
}

std::string built(const Assessment& a) { return to_words(a.date.from) + " to " + to_words(a.date.to); }

std::vector<Moved> moved(const Tables& before, const Tables& after, const Inspection& inspection) {
  const Assessment a = assess_or_stop(before, inspection), b = assess_or_stop(after, inspection);
  std::vector<Moved> out;
  const std::string variant_a = before.variants[a.variants.front().index].name, variant_b = after.variants[b.variants.front().index].name;
  if (variant_a != variant_b) out.push_back({"leading variant", variant_a, variant_b});
  if (built(a) != built(b)) out.push_back({"built", built(a), built(b)});
  for (const FeatureVerdict& v : b.features) {
    const auto old = std::find_if(a.features.begin(), a.features.end(), [&](const FeatureVerdict& x) { return x.id == v.id; });
    if (old != a.features.end() && old->verdict != v.verdict) out.push_back({v.name, word(old->verdict), word(v.verdict)});
  }
  return out;
}

int run(const Options& options) {
  const Rules rules = rules_folders(options.rules);
  const Pack before = read_pack_folder(find_pack_folder(options.before, rules), rules), after = read_pack_folder(find_pack_folder(options.after, rules), rules);
  const auto differences = pack_differences(before, after);
  Json out = {{"before", before.id}, {"after", after.id}, {"differences", Json::array()}, {"vehicles", Json::array()}};
  Page page(colour_wanted());
  page.heading(after.name + ": " + (differences.empty() ? "no difference" : std::to_string(differences.size()) + (differences.size() == 1 ? " difference" : " differences")));
  for (const PackDifference& d : differences) {
    page.paragraph(d.words);
    out["differences"].push_back({{"kind", d.kind}, {"about", d.about}, {"id", d.id}, {"words", d.words}});
  }
  if (!options.vehicles.empty()) {
    page.heading("What it does to the vehicles");
    const Tables a = compile(before), b = compile(after);
    for (const std::string& file : options.vehicles) {
      const auto changes = moved(a, b, load_inspection(file));
      page.paragraph(file + (changes.empty() ? ": nothing moved" : ":"));
      Json lines = Json::array();
      for (const Moved& m : changes) {
        page.paragraph(m.what + ": " + m.is + ", was " + m.was, 4);
        lines.push_back({{"what", m.what}, {"was", m.was}, {"is", m.is}});
      }
      out["vehicles"].push_back({{"file", file}, {"moved", std::move(lines)}});
    }
  }
  std::cout << (options.json ? out.dump(2) + "\n" : page.text());
  return done;
}

}  // namespace

void add_pack_diff(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("diff", "What one edition of a pack says otherwise than another, and which verdicts it moves");
  auto options = std::make_shared<Options>();
  verb->add_option("A", options->before, "the pack as it was: its name or folder")->required();
  verb->add_option("B", options->after, "the pack as it is")->required();
  verb->add_option("--vehicles", options->vehicles, "inspections to assess by both")->expected(1, -1);
  verb->add_option("--rules", options->rules, "the folder of packs");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks pack diff old/aldermoor-carrier rules/aldermoor-carrier --vehicles sample-vehicles/carrier-seen-from-the-road.xml\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
