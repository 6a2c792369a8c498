#include "workshop/job_assessment.hpp"

#include <nlohmann/json.hpp>
#include <set>

#include "base/file.hpp"
#include "record/inspection_reader.hpp"
#include "report/json/assessment_json.hpp"

namespace exworks {

const Tables& tables_or_failed(Packs& packs, const std::string& family) {
  try {
    return packs.get(family);
  } catch (const FileError& e) {
    throw Failed{e.what + "; " + e.remedy};
  } catch (const Mistakes& m) {
    throw Failed{lines_of(m.found)};
  }
}

Assessed assess_xml(Packs& packs, const std::string& xml, const std::string& file, const std::string& family, const Settings& settings) {
  Diagnostics d;
  auto inspection = read_inspection(xml, file, d);
  if (!inspection) throw Failed{lines_of(errors_among(d))};
  const std::string wanted = family.empty() ? inspection->family : family;
  if (wanted.empty()) throw Failed{file + ": the inspection names no family; add family=\"...\" to it, or give --family"};
  Assessed out;
  try {
    out.tables = &tables_or_failed(packs, wanted);
  } catch (const Failed& f) {
    throw Failed{file + ": " + f.why};
  }
  auto assessment = assess(*out.tables, *inspection, settings, Given{}, d);
  if (!assessment) throw Failed{lines_of(errors_among(d))};
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

}  // namespace exworks
