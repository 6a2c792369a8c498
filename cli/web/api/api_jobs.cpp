#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"
#include "base/text.hpp"
#include "base/date.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/make_report.hpp"
#include "web/api/api.hpp"
#include "web/sessions/qr.hpp"
#include "web/sessions/secret.hpp"
#include "web/api/edits.hpp"
#include "web/api/words.hpp"

namespace exworks::cli::web {

Json Call::body() const {
  Json out = parse_foreign_ordered(request.body);
  if (!out.is_object()) throw Refusal{400, "the body is no JSON object; load the page again"};
  return out;
}

std::int64_t as_number(const std::string& text, const char* what) {
  if (text.empty() || text.size() > 15 || text.find_first_not_of("0123456789") != std::string::npos) throw Refusal{400, std::string(what) + " is no number; write digits"};
  return std::stoll(text);
}

std::int64_t Call::job() const { return as_number(parts.at(2), "the job"); }

std::int64_t Call::number(const char* name) const {
  const std::string text = parameter(name);
  return text.empty() ? 0 : as_number(text, name);
}

Json Api::session(const Call& call) { return {{"token", call.token}, {"version", EXWORKS_VERSION}, {"date", today()}}; }

Json Api::invite(const Call& call) {
  const auto code = session_store_.invite(Clock::now());
  if (!code) throw Refusal{429, "many codes are out and unused; wait until they have run out (ten minutes)", 60};
  const std::string url = call.own_address + "/join?code=" + *code;
  return {{"url", url}, {"code", *code}, {"qr", qr_as_svg(url)}};
}

Json Api::pack(const Call& call) { return pack_json(context_.family(call.parts.at(2))); }

namespace {

std::string family_name(const Context& context, const std::string& id) {
  for (const Tables* t : context.families()) {
    if (t->family == id) return t->name;
  }
  return id;
}

Json job_json(const Context& context, const Job& j) {
  return {{"id", j.id}, {"uid", j.uid}, {"family", j.family}, {"family_name", family_name(context, j.family)}, {"name", j.name}, {"reference", j.reference}, {"owner", j.owner},
          {"purpose", j.purpose}, {"state", j.state}, {"date", j.date}, {"updated", j.updated}};
}

/// Jobs whose number, reference or words fit what was typed; the latest first.
std::vector<Job> jobs_that_fit(Book& book, const std::string& typed, const std::string& state) {
  Filter all;
  all.state = state;
  if (typed.empty()) return book.find(all);
  std::vector<Job> out;
  const auto add = [&](const Filter& f) {
    for (Job& j : book.find(f)) {
      if (std::none_of(out.begin(), out.end(), [&](const Job& o) { return o.id == j.id; })) out.push_back(std::move(j));
    }
  };
  Filter by = all;
  by.reference = typed;
  add(by);
  by = all;
  by.number = typed;
  add(by);
  by = all;
  by.words = typed;
  add(by);
  // Names, and parts of references: looked for among the latest jobs.
  by = all;
  by.most = 1000;
  const auto holds = [&](const std::string& text) { return plain_code(text).find(plain_code(typed)) != std::string::npos; };
  for (Job& j : book.find(by)) {
    const bool known = std::any_of(out.begin(), out.end(), [&](const Job& o) { return o.id == j.id; });
    if (!known && !plain_code(typed).empty() && (holds(j.name) || holds(j.reference) || holds(j.owner)) && out.size() < 50) out.push_back(std::move(j));
  }
  return out;
}

}  // namespace

Json Api::jobs(const Call& call) {
  for (const char* name : {"q", "state"}) {
    if (!is_clean_utf8(call.parameter(name))) throw Refusal{400, "what is looked for holds a character that can't be kept; write it again without it"};
  }
  Json out = Json::array();
  for (const Job& j : context_.with_book([&](Book& book) { return jobs_that_fit(book, call.parameter("q"), call.parameter("state")); })) out.push_back(job_json(context_, j));
  return {{"jobs", std::move(out)}};
}

Json Api::new_job(const Call& call) {
  const Json body = call.body();
  const std::string tap = text_of(body, "tap", 64), family = context_.family(text_of(body, "family", 64)).family;
  check_edit_name(tap);
  const Json fields = body.value("fields", Json::object());
  std::vector<Entry> entries{about("state", "open"), about("purpose", "intake"), about("family", family)};
  entries.front().uid = tap;
  for (const char* name : {"name", "reference", "owner", "purpose", "date", "by"}) {
    const std::string value = fields.is_object() ? text_of(fields, name, 300) : "";
    if (value.empty()) continue;
    if (name == std::string_view("purpose")) entries[1] = about(name, value);
    else entries.push_back(about(name, value));
  }
  refuse_mistakes(context_.family(family), family, entries);
  const std::string by = fields.is_object() ? text_of(fields, "by", 60) : "";
  // Asked twice under one name, it is one job: the answer to the first may have been lost on its way.
  const std::int64_t job = context_.with_book([&](Book& book) {
    const auto begun = book.job_begun_by(tap);
    return begun ? *begun : book.new_job(entries, by, std::nullopt);
  });
  return {{"job", job}};
}

/// What changed since the phone last asked, and how the job stands. In this order: the number first and the state last, so that what
/// another program writes in between comes again the next time, and the state is never older than the number says.
Json Api::after(std::int64_t job, std::int64_t since, const std::vector<std::pair<std::string, std::string>>& edited) {
  Json entries = Json::array();
  const std::int64_t change = context_.with_book([&](Book& book) {
    const std::int64_t last = book.last_change(job);
    for (const Entry& e : since == 0 ? book.entries(job) : book.entries_since(job, since)) entries.push_back(entry_json(e));
    return last;
  });
  const auto state = context_.state(job);
  Json out = {{"change", change}, {"entries", std::move(entries)}, {"now", state_json(*state, edited)}};
  if (!state->trouble.empty()) out["trouble"] = state->trouble;
  return out;
}

Json Api::job(const Call& call) {
  const Job job = context_.job(call.job());
  Json out = {{"job", job_json(context_, job)}};
  out.update(after(job.id, call.number("since"), {}));
  return out;
}

Json Api::entries(const Call& call) {
  const Job job = context_.job(call.job());
  const Json body = call.body();
  if (const std::string uid = text_of(body, "uid", 64); !uid.empty() && uid != job.uid) throw Refusal{404, "this job is of another book; go to the first page and choose the job again"};
  const std::vector<Edit> edits = edits_of(body);
  std::vector<Entry> changes;
  for (const Edit& t : edits) changes.push_back(t.entry);
  refuse_mistakes(context_.family(job.family), job.family, changes);
  const auto told = context_.with_book([&](Book& book) { return book.record_edits(job.id, edits, text_of(body, "by", 60)); });
  Json saved = Json::array(), conflicts = Json::array();
  std::vector<std::pair<std::string, std::string>> edited;
  for (std::size_t i = 0; i < edits.size(); ++i) {
    saved.push_back(edits[i].entry.uid);
    if (told[i].replaced) conflicts.push_back({{"tap", edits[i].entry.uid}, {"theirs", entry_json(*told[i].replaced)}});
    edited.emplace_back(edits[i].entry.kind, edits[i].entry.name);
  }
  Json out = {{"saved", std::move(saved)}, {"conflicts", std::move(conflicts)}};
  const auto since = body.find("since");
  out.update(after(job.id, since != body.end() && since->is_number_unsigned() ? since->get<std::int64_t>() : 0, edited));
  return out;
}

Json Api::history(const Call& call) {
  const Job job = context_.job(call.job());
  Json out = Json::array();
  for (const Entry& e : context_.with_book([&](Book& book) { return book.history(job.id); })) out.push_back(entry_json(e));
  return {{"entries", std::move(out)}};
}

}  // namespace exworks::cli::web
