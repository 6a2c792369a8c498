#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"
#include "base/file.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/make_report.hpp"
#include "workshop/photos.hpp"

/// A job of the book as the subject of a report.
namespace exworks {

namespace {

/// What an entry says in one word: a value, a number, a measure or a state; "" when it was taken back.
std::string said(const std::optional<Fields>& fields) {
  if (!fields) return "";
  for (const char* name : {"value", "text", "measure", "state"}) {
    const auto at = fields->find(name);
    if (at == fields->end() || at->second.empty()) continue;
    const auto unit = fields->find("unit");
    return at->second + (name == std::string("measure") && unit != fields->end() ? " " + unit->second : "");
  }
  return "";
}

/// Features and numbers of which something else was said later; a note added to the same finding is no change of it.
std::vector<RecordChange> changes_of(Book& book, std::int64_t job) {
  std::vector<RecordChange> out;
  std::map<std::pair<std::string, std::string>, std::string> before;
  for (const Entry& e : book.history(job)) {
    if ((e.kind != "observed" && e.kind != "number") || e.forgotten) continue;
    const auto [at, first] = before.try_emplace({e.kind, e.name}, said(e.fields));
    if (first || at->second == said(e.fields)) continue;
    out.push_back({e.at, e.name, at->second, said(e.fields)});
    at->second = said(e.fields);
  }
  return out;
}

std::string text_at(const nlohmann::json& node, const char* name) { return node.is_object() && node.contains(name) && node[name].is_string() ? node[name].get<std::string>() : std::string(); }

/// Kept assessments, one for each build or dates that they gave; a single answer has no history.
std::vector<EarlierAnswer> answers_of(Book& book, std::int64_t job) {
  std::vector<EarlierAnswer> out;
  for (const StoredAssessment& brief : book.assessments(job)) {
    const auto result = parse_foreign(book.assessment(brief.id).result);
    if (!result.is_object() || !result.contains("builds") || !result["builds"].is_array() || result["builds"].empty() || !result.contains("build_date")) continue;
    const EarlierAnswer a{brief.at, text_at(result["builds"][0], "variant"), text_at(result["build_date"], "from"), text_at(result["build_date"], "to")};
    if (out.empty() || out.back().variant != a.variant || out.back().from != a.from || out.back().to != a.to) out.push_back(a);
  }
  if (out.size() < 2) out.clear();
  return out;
}

}  // namespace

std::optional<ReportSubject> subject_of_job(Book& book, std::int64_t job, Diagnostics& diagnostics) {
  auto inspection = inspection_of_job(book, job, diagnostics);
  if (!inspection) return std::nullopt;
  return ReportSubject{std::move(*inspection), load_photos(book, job, diagnostics), {changes_of(book, job), answers_of(book, job)}};
}

}  // namespace exworks
