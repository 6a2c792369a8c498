#include "workshop/jobs.hpp"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/personal.hpp"
#include "base/text.hpp"
#include "report/render/page.hpp"
#include "words/redaction.hpp"

namespace exworks {

using Json = nlohmann::ordered_json;

namespace {

std::string hidden(const std::string& text, bool redact) { return redact && !text.empty() ? withheld : text; }

std::string shown(const Entry& e, const std::string& field, const std::string& value, bool redact) {
  if (!redact) return value;
  if (e.kind == "about" ? is_personal_about(e.name) : is_personal(field)) return withheld;
  return field == "text" ? withheld_number(value) : value;
}

}  // namespace

std::int64_t find_job(Book& book, const std::string& text) {
  // A number is a job's number, as for the other verbs, unless there is no such job.
  std::int64_t id = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), id);
  const bool is_number = error == std::errc() && end == text.data() + text.size();
  const std::vector<std::int64_t> all = is_number ? book.all_jobs() : std::vector<std::int64_t>{};
  if (std::find(all.begin(), all.end(), id) != all.end()) return id;
  Filter filter;
  filter.reference = text;
  const std::vector<Job> named = text.empty() ? std::vector<Job>{} : book.find(filter);
  if (named.size() == 1) return named.front().id;
  if (named.empty()) throw FileError{"no job has the number or the reference '" + text + "'", "'exworks job list' shows them"};
  std::string numbers;
  for (const Job& j : named) numbers += (numbers.empty() ? "" : ", ") + std::to_string(j.id);
  throw FileError{"the reference '" + text + "' is that of several jobs: " + numbers, "give the job's number"};
}

void require_text(const std::string& what, const std::string& text) {
  std::size_t bad = 0;
  if (!is_clean_utf8(text, &bad)) throw mistake(what + " is not plain text: byte " + std::to_string(bad + 1) + " is no character", "write it in UTF-8, without control characters");
}

Json to_json(const Job& j, bool redact) {
  return {{"job", j.id}, {"vehicle", j.vehicle}, {"purpose", j.purpose}, {"state", j.state}, {"family", j.family}, {"name", hidden(j.name, redact)},
          {"reference", hidden(j.reference, redact)}, {"owner", hidden(j.owner, redact)}, {"date", j.date}, {"updated", j.updated},
          {"assessment", j.assessment ? Json(*j.assessment) : Json(nullptr)}};
}

Json to_json(const Entry& e, bool redact) {
  Json out = {{"kind", e.kind}, {"name", e.name}, {"at", e.at}, {"by", hidden(e.by, redact)}, {"current", e.current}, {"forgotten", e.forgotten}, {"fields", nullptr}};
  if (!e.fields) return out;
  out["fields"] = Json::object();
  for (const auto& [name, value] : *e.fields) out["fields"][name] = shown(e, name, value, redact);
  return out;
}

std::string words_of(const Entry& e, bool redact) {
  if (!e.fields) return e.forgotten ? "(forgotten)" : "(taken back)";
  std::string out, note;
  for (const char* first : {"value", "text", "state", "measure", "unit", "file"}) {
    if (const auto at = e.fields->find(first); at != e.fields->end()) out += (out.empty() ? "" : " ") + shown(e, first, at->second, redact);
  }
  for (const auto& [name, value] : *e.fields) {
    if (name == "note") note = shown(e, name, value, redact);
    else if (name != "value" && name != "text" && name != "state" && name != "measure" && name != "unit" && name != "file") out += (out.empty() ? "" : ", ") + name + " " + shown(e, name, value, redact);
  }
  return harmless(out + (note.empty() ? "" : (out.empty() ? "" : "; ") + note));
}

}  // namespace exworks
