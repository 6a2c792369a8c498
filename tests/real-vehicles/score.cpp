#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "assess/assessment.hpp"
#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "engine/evidence/given.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"

/// How the verdicts do on real vehicles that were described publicly: score VEHICLES RULES [-v]
/// VEHICLES holds a folder a family with ID.xml (what was seen), ID-full.xml (with numbers and the seller's market) and ID.expected.json (what
/// the page says of it). `plain` and `full` judge these two; `told` judges ID.xml with the year, variant and market of the page taken as given.
/// It ends with 1 when of what the pages call original more than 3 in 100 are called a later change.
namespace fs = std::filesystem;
using namespace exworks;
using Json = nlohmann::json;

namespace {

struct Counts {
  int later = 0, uncertain = 0, original = 0;
  int all() const { return later + uncertain + original; }
};

struct Row {
  std::optional<bool> generation, variant, market, year;
  int width = 0;
  std::map<std::string, Counts> of;  ///< by what the page says: later, original, unsaid
};

std::vector<std::string> words_of(const Json& value) {
  if (value.is_null()) return {};
  if (value.is_string()) return {value.get<std::string>()};
  return value.get<std::vector<std::string>>();
}

std::vector<std::string> conditions_of(const Json& expected) {
  std::vector<std::string> out;
  if (const auto year = expected.find("year"); year != expected.end() && !year->is_null()) {
    const std::string kind = expected.value("year_kind", Json()).is_string() ? expected["year_kind"].get<std::string>() : "";
    const int y = year->get<int>();
    const bool before = kind == "registration" || kind == "model" || kind == "unclear";
    out.push_back("built=" + std::to_string(before ? y - 1 : y) + "-01/" + std::to_string(y) + "-12");
  }
  for (const char* axis : {"generation", "variant", "market"}) {
    const std::vector<std::string> named = expected.contains(axis) ? words_of(expected[axis]) : std::vector<std::string>{};
    if (named.size() == 1) out.push_back(std::string(axis) + "=" + named.front());
  }
  return out;
}

template <class Items>
std::optional<bool> leads(const Json& expected, const char* axis, const std::vector<Odds>& odds, const Items& items) {
  const std::vector<std::string> wanted = expected.contains(axis) ? words_of(expected[axis]) : std::vector<std::string>{};
  if (wanted.empty() || odds.empty()) return std::nullopt;
  return std::find(wanted.begin(), wanted.end(), items[odds.front().index].id) != wanted.end();
}

std::optional<bool> year_met(const Json& expected, const DateSet& date) {
  if (!expected.contains("year") || expected["year"].is_null() || expected.value("soft_year", false)) return std::nullopt;
  const std::string kind = expected.contains("year_kind") && expected["year_kind"].is_string() ? expected["year_kind"].get<std::string>() : "";
  Month first = Month::of(expected["year"].get<int>(), 1);
  const Month last = first + 11;
  if (kind == "model") first = first - 5;
  if (kind == "registration" || kind == "unclear") first = first - 12;
  return date.to >= first && date.from <= last;
}

class Scorer {
 public:
  Scorer(fs::path rules, bool verbose) : rules_(std::move(rules)), verbose_(verbose) {}

  void family(const fs::path& folder) {
    Diagnostics d;
    const auto pack = read_pack(rules_ / folder.filename(), d, {rules_});
    if (!pack) return complain(d);
    const auto tables = compile(*pack, d);
    if (!tables) return complain(d);
    std::set<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder)) {
      if (entry.path().string().ends_with(".expected.json")) files.insert(entry.path());
    }
    for (const fs::path& file : files) vehicle(*tables, file);
  }

  /// Prints the tables; 1 where more originals are called later than may be.
  int report() const {
    if (failed_ || rows_.empty()) return 1;
    bool too_many = false;
    for (const auto& [name, rows] : rows_) {
      const Counts original = sum(rows, "original");
      too_many = too_many || original.later * 100 > original.all() * 3;
    }
    print("new", "vehicles that no pack had seen");
    print("known", "vehicles on pages that the packs cite");
    if (too_many) std::printf("Of the features said to be original more than 3 in 100 are called a later change.\n");
    return too_many ? 1 : 0;
  }

 private:
  void complain(const Diagnostics& d) {
    failed_ = true;
    for (const Diagnostic& one : d.sorted()) std::fprintf(stderr, "%s\n", to_text(one).c_str());
  }

  void vehicle(const Tables& t, const fs::path& file) {
    const Json expected = Json::parse(read_file(file));
    const std::string stem = file.string().substr(0, file.string().size() - std::string(".expected.json").size());
    const std::string known = expected.value("used_by_packs", false) ? " known" : " new";
    judge(t, expected, stem + ".xml", {}, "plain" + known);
    judge(t, expected, stem + "-full.xml", {}, "full" + known);
    judge(t, expected, stem + ".xml", conditions_of(expected), "told" + known);
  }

  void judge(const Tables& t, const Json& expected, const std::string& file, const std::vector<std::string>& conditions, const std::string& name) {
    Diagnostics d;
    const auto inspection = read_inspection(read_file(file), file, d);
    if (!inspection) return complain(d);
    Settings settings;
    settings.fit_draws = 0;
    settings.readings = settings.hinges = false;
    const Given given = parse_given(t, conditions, {file, 1, 1}, d);
    const auto a = assess(t, *inspection, settings, given, d);
    if (!a) return complain(d);
    Row row;
    row.generation = leads(expected, "generation", a->generations, t.axes.generations);
    row.variant = leads(expected, "variant", a->variants, t.axes.variants);
    row.market = leads(expected, "market", a->markets, t.axes.markets);
    row.year = year_met(expected, a->date);
    row.width = a->date.to - a->date.from + 1;
    for (const char* said : {"later", "original", "unsaid"}) {
      if (expected.contains(said)) count(t, *a, words_of(expected[said]), said, fs::path(file).stem().string() + " " + name, row.of[said]);
    }
    rows_[name].push_back(std::move(row));
  }

  void count(const Tables& t, const Assessment& a, const std::vector<std::string>& features, const std::string& said, const std::string& vehicle, Counts& counts) const {
    for (const std::string& id : features) {
      const auto at = std::find_if(a.features.begin(), a.features.end(), [&](const FeatureVerdict& f) { return t.features[f.finding.feature].id == id; });
      if (at == a.features.end()) continue;
      counts.later += at->verdict == VerdictKind::later_change;
      counts.uncertain += at->verdict == VerdictKind::uncertain;
      counts.original += at->verdict == VerdictKind::original;
      const bool other = said == "later" ? at->verdict != VerdictKind::later_change : at->verdict == VerdictKind::later_change;
      if (verbose_ && other) std::printf("%s: %s is %s, said %s: P(type as built) %.3f%s\n", vehicle.c_str(), id.c_str(), t.values_id(at->finding.feature, at->noted).c_str(), said.c_str(), at->p, at->finding.p_silent > 0.5 ? ", pack silent" : "");
    }
  }

  static std::string share(const std::vector<Row>& rows, std::optional<bool> Row::* axis) {
    int right = 0, all = 0;
    for (const Row& r : rows) {
      if (!(r.*axis)) continue;
      ++all;
      right += *(r.*axis);
    }
    return of(right, all);
  }

  static std::string of(int part, int all) {
    std::string out = std::to_string(part) + "/" + std::to_string(all);
    if (all > 0) out += " (" + std::to_string((part * 200 + all) / (all * 2)) + " %)";
    return out;
  }

  static Counts sum(const std::vector<Row>& rows, const std::string& said) {
    Counts out;
    for (const Row& r : rows) {
      const auto at = r.of.find(said);
      if (at == r.of.end()) continue;
      out.later += at->second.later;
      out.uncertain += at->second.uncertain;
      out.original += at->second.original;
    }
    return out;
  }

  static std::string width(const std::vector<Row>& rows) {
    std::vector<int> widths;
    for (const Row& r : rows) widths.push_back(r.width);
    std::sort(widths.begin(), widths.end());
    return std::to_string(widths[widths.size() / 2]) + " months";
  }

  /// One table: the vehicles that the packs have not seen, or those that stand on pages which they cite.
  void print(const std::string& which, const char* heading) const {
    const char* ways[] = {"plain ", "full ", "told "};
    const auto line = [&](const char* what, auto&& cell) {
      std::printf("  %-44s", what);
      for (const char* way : ways) std::printf("  %-14s", cell(rows_.at(way + which)).c_str());
      std::printf("\n");
    };
    std::printf("%zu %s\n", rows_.at(ways[0] + which).size(), heading);
    std::printf("  %-44s  %-14s  %-14s  %-14s\n", "", "seen", "and numbers", "year, variant told");
    line("generation leads", [](const auto& rows) { return share(rows, &Row::generation); });
    line("variant leads", [](const auto& rows) { return share(rows, &Row::variant); });
    line("year of the page in the 90 % date set", [](const auto& rows) { return share(rows, &Row::year); });
    line("median date set", width);
    line("said to be later, and called a later change", [](const auto& rows) { return of(sum(rows, "later").later, sum(rows, "later").all()); });
    line("said to be later, and called original", [](const auto& rows) { return of(sum(rows, "later").original, sum(rows, "later").all()); });
    line("said to be original, and called original", [](const auto& rows) { return of(sum(rows, "original").original, sum(rows, "original").all()); });
    line("said to be original, and called later", [](const auto& rows) { return of(sum(rows, "original").later, sum(rows, "original").all()); });
  }

  fs::path rules_;
  bool verbose_, failed_ = false;
  std::map<std::string, std::vector<Row>> rows_;
};

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "use: score VEHICLES RULES [-v]\n");
    return 2;
  }
  Scorer scorer(argv[2], argc > 3);
  std::set<fs::path> folders;
  for (const auto& entry : fs::directory_iterator(argv[1])) {
    if (entry.is_directory()) folders.insert(entry.path());
  }
  for (const fs::path& folder : folders) scorer.family(folder);
  return scorer.report();
}
