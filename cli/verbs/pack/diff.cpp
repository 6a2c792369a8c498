#include <algorithm>
#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "assess/assessment.hpp"
#include "words/expectations.hpp"
#include "author/pack_diff.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "report/render/page.hpp"
#include "verbs/pack/reference.hpp"
#include "verbs/pack/verbs.hpp"
#include "words/english/english.hpp"

namespace exworks::cli {

namespace {

using Options = PackDiffArguments;

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

/// One answer about a vehicle that the new edition gives otherwise.
struct Moved {
  std::string what, was, is;
};

/// Nothing when this edition lacks what the inspection speaks of.
std::optional<Assessment> assess_quickly(const Tables& tables, const Inspection& inspection) {
  Diagnostics ignored;
  Settings settings;
  settings.fit_draws = 0;
  settings.hinges = settings.readings = false;
  return assess(tables, inspection, settings, Given{}, ignored);
}

std::string built(const Assessment& a) { return to_words(a.date.from) + " to " + to_words(a.date.to); }

/// The leading one of an axis, by name; "" when there is none.
template <class Items>
std::string leading(const std::vector<Odds>& odds, const Items& items) {
  return odds.empty() ? "" : items[odds.front().index].name;
}

void add_moved(std::vector<Moved>& out, const std::string& what, const std::string& was, const std::string& is) {
  if (was != is) out.push_back({what, was, is});
}

/// Whether a reference vehicle comes out as its published description says.
void expectations(const Tables& before, const Tables& after, const Inspection& inspection, const Assessment& a, const Assessment& b, std::vector<Moved>& out) {
  Diagnostics ignored;  // an expectation that one edition can't read is not met by it
  const auto was = check_expectations(before, inspection, a, ignored), is = check_expectations(after, inspection, b, ignored);
  const auto met = [](const std::vector<ExpectationResult>& all, const Expectation* e) {
    return std::any_of(all.begin(), all.end(), [&](const ExpectationResult& r) { return r.expectation == e && r.met; }) ? "met" : "not met";
  };
  for (const ExpectationResult& r : is) add_moved(out, "its description, " + expected_words(r), met(was, r.expectation), met(is, r.expectation));
}

std::vector<Moved> moved(const Tables& before, const Tables& after, const Inspection& inspection) {
  const auto by_old = assess_quickly(before, inspection), by_new = assess_quickly(after, inspection);
  if (!by_old || !by_new) return {{"has all that this inspection names", by_old ? "yes" : "no", by_new ? "yes" : "no"}};
  const Assessment &a = *by_old, &b = *by_new;
  std::vector<Moved> out;
  add_moved(out, "leading variant", leading(a.variants, before.axes.variants), leading(b.variants, after.axes.variants));
  add_moved(out, "leading market", leading(a.markets, before.axes.markets), leading(b.markets, after.axes.markets));
  add_moved(out, "leading plant", leading(a.plants, before.axes.plants), leading(b.plants, after.axes.plants));
  add_moved(out, "built", built(a), built(b));
  for (const FeatureVerdict& v : b.features) {
    const FeatureInfo& feature = after.features[v.finding.feature];
    const auto old = std::find_if(a.features.begin(), a.features.end(), [&](const FeatureVerdict& x) { return before.features[x.finding.feature].id == feature.id; });
    if (old != a.features.end() && old->verdict != v.verdict) out.push_back({feature.name, word(old->verdict), word(v.verdict)});
  }
  expectations(before, after, inspection, a, b, out);
  return out;
}

/// The files that are meant: those named, the *.xml of a folder named, else the reference vehicles of both editions.
std::vector<std::string> vehicle_files(const Options& options, const Pack& before, const Pack& after) {
  std::vector<std::string> files;
  for (const std::string& named : options.vehicles) {
    std::error_code too_long;  // an absurd name is simply no folder
    if (!fs::is_directory(named, too_long)) {
      files.push_back(named);
      continue;
    }
    std::vector<std::string> inside;
    for (const auto& entry : fs::directory_iterator(named)) {
      if (entry.path().extension() == ".xml") inside.push_back(entry.path().string());
    }
    std::sort(inside.begin(), inside.end());
    files.insert(files.end(), inside.begin(), inside.end());
  }
  if (!options.vehicles.empty()) return files;
  files = reference_vehicles(after.folder);
  for (const std::string& old : reference_vehicles(before.folder)) {
    const auto same = [&](const std::string& x) { return fs::path(x).filename() == fs::path(old).filename(); };
    if (std::none_of(files.begin(), files.end(), same)) files.push_back(old);
  }
  return files;
}

/// What becomes of the vehicles, on the page and in the JSON.
void effect(const Options& options, const Pack& before, const Pack& after, Page& page, Json& out) {
  const auto files = vehicle_files(options, before, after);
  if (files.empty()) return;
  page.heading("What it does to the vehicles");
  const Tables a = tables_of(before), b = tables_of(after);
  std::size_t assessed = 0, with_change = 0;
  for (const std::string& file : files) {
    const Inspection inspection = load_inspection(file);
    // A folder of samples holds those of other families too.
    if (!inspection.family.empty() && inspection.family != after.id && inspection.family != before.id) continue;
    ++assessed;
    const auto changes = moved(a, b, inspection);
    Json lines = Json::array();
    if (!changes.empty()) page.paragraph(file + ":");
    for (const Moved& m : changes) {
      page.paragraph(m.what + ": " + m.is + ", was " + m.was, 4);
      lines.push_back({{"what", m.what}, {"was", m.was}, {"is", m.is}});
    }
    with_change += changes.empty() ? 0 : 1;
    out["vehicles"].push_back({{"file", file}, {"moved", std::move(lines)}});
  }
  page.paragraph(std::to_string(with_change) + " of " + counted(assessed, "vehicle") + " moved.");
}

}  // namespace

int run(const PackDiffArguments& options) {
  const Rules rules = rules_folders(options.rules);
  const Pack before = load_pack(pack_or_folder(options.before, rules), rules), after = load_pack(pack_or_folder(options.after, rules), rules);
  const auto differences = pack_differences(before, after);
  Json out = {{"before", before.id}, {"after", after.id}, {"differences", Json::array()}, {"vehicles", Json::array()}};
  Page page(colour_wanted());
  page.heading(after.name + ": " + (differences.empty() ? "no difference" : std::to_string(differences.size()) + (differences.size() == 1 ? " difference" : " differences")));
  for (const PackDifference& d : differences) {
    page.paragraph(d.words);
    out["differences"].push_back({{"kind", d.kind}, {"about", d.about}, {"id", d.id}, {"words", d.words}});
  }
  if (!differences.empty() || !options.vehicles.empty()) effect(options, before, after, page, out);
  if (options.json) print_json(out);
  else std::cout << page.text();
  return done;
}

}  // namespace exworks::cli
