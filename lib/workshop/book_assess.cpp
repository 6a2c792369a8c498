#include "workshop/book_assess.hpp"

#include <nlohmann/json.hpp>
#include <set>

#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "pack/read/pack_reader.hpp"
#include "record/inspection_reader.hpp"
#include "report/json/assessment_json.hpp"

namespace exworks::cli {

namespace {

std::string errors_of(const Diagnostics& d) {
  std::string out;
  for (const Diagnostic& one : d.sorted()) {
    if (one.severity == Severity::error) out += (out.empty() ? "" : "\n") + to_text(one);
  }
  return out;
}

}  // namespace

const Tables& PackCache::get(const std::string& family) {
  const std::lock_guard lock(mutex_);
  auto [at, fresh] = slots_.try_emplace(family);
  Slot& slot = at->second;
  if (fresh) {
    const auto folders = pack_folders(rules_);
    const auto folder = std::find_if(folders.begin(), folders.end(), [&](const auto& f) { return f.filename() == family; });
    Diagnostics d;
    if (folder == folders.end()) {
      slot.why = "there is no pack '" + family + "' in " + words(rules_) + "; name one that is there";
    } else if (const auto pack = read_pack_among(*folder, rules_, d)) {
      slot.tables = std::make_unique<Tables>(compile(*pack));
    } else {
      slot.why = errors_of(d);
    }
  }
  if (!slot.tables) throw Failed{slot.why};
  return *slot.tables;
}

Assessed assess_xml(PackCache& packs, const std::string& xml, const std::string& file, const std::string& family, const Settings& settings) {
  Diagnostics d;
  auto inspection = read_inspection(xml, file, d);
  if (!inspection) throw Failed{errors_of(d)};
  const std::string wanted = family.empty() ? inspection->family : family;
  if (wanted.empty()) throw Failed{file + ": the inspection names no family; add family=\"...\" to it, or give --family"};
  Assessed out;
  try {
    out.tables = &packs.get(wanted);
  } catch (const Failed& f) {
    throw Failed{file + ": " + f.why};
  }
  auto assessment = assess(*out.tables, *inspection, settings, Given{}, d);
  if (!assessment) throw Failed{errors_of(d)};
  out.assessment = std::move(*assessment);
  out.inspection = std::move(*inspection);
  return out;
}

Settings batch_settings(bool quick) {
  Settings s;
  if (!quick) return s;
  s.fit_draws = 0;
  s.readings = false;
  s.hinges = false;
  return s;
}

nlohmann::ordered_json to_json(const Settings& s) {
  return {{"original_from", s.original_from}, {"later_to", s.later_to}, {"level", s.level}, {"memory_decides", s.memory_decides},
          {"fit_draws", s.fit_draws}, {"seed", s.seed}, {"readings", s.readings}, {"hinges", s.hinges}};
}

std::vector<PartVerdict> part_verdicts(const nlohmann::json& result) {
  std::set<std::pair<std::string, std::string>> all;
  if (!result.is_object()) return {};
  for (const auto& f : result.value("features", nlohmann::json::array())) {
    const auto verdict = f.find("verdict");
    if (verdict == f.end() || !verdict->is_string()) continue;
    for (const char* part : {"id", "assembly"}) {
      if (f.contains(part) && f[part].is_string()) all.emplace(f[part].get<std::string>(), verdict->get<std::string>());
    }
  }
  std::vector<PartVerdict> out;
  for (const auto& [part, verdict] : all) out.push_back({part, verdict});
  return out;
}

std::pair<StoredAssessment, std::vector<PartVerdict>> to_store(std::int64_t job, const std::string& inspection, const Assessed& a) {
  const auto result = json_report(a.of());
  StoredAssessment s;
  s.job = job;
  s.family = a.tables->family;
  s.pack_version = a.tables->version;
  s.pack_digest = a.tables->digest;
  s.engine = EXWORKS_VERSION;
  s.settings = to_json(a.assessment.settings).dump();
  s.inspection = inspection;
  s.result = result.dump();
  return {s, part_verdicts(result)};
}

}  // namespace exworks::cli
