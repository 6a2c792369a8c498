#pragma once
#include <mutex>

#include "web/sessions/session_store.hpp"
#include "web/http/http.hpp"
#include "web/api/context.hpp"

/// The guided inspection's questions and answers, one function an address. All answers are JSON objects; what goes wrong is thrown
/// (Refusal, FileError) and told in server.cpp. Dates are YYYY-MM; odds 0 to 1.
///
///   E, an entry:  {kind, name, fields|null, at, by, change, tap}   fields null: taken back
///   S, the state: {odds: {variant, generation, market: {id, name, p}, build_date}, score, counts,
///                  features: {ID: {verdict, p_type, reason}}, numbers: {ID: number}, said: [sentence], cautions}, or null
///
/// Features, numbers, readings, claims, documents, scores and dates have the shapes of rules/schema/assessment.schema.json; `words`, where
/// it stands beside them, is a sentence for a small screen.
namespace exworks::cli::web {

struct Call {
  const httplib::Request& request;
  httplib::Response& response;
  std::vector<std::string> parts;  ///< of the path: "api", "jobs", "12", "entries"
  std::string token;               ///< of the session
  std::string own_address;         ///< "http://192.168.1.20:8080"

  std::string parameter(const char* name) const { return request.has_param(name) ? request.get_param_value(name) : std::string(); }
  /// The body; throws Refusal when it is no JSON object.
  Json body() const;
  /// The job's number in the path; throws Refusal.
  std::int64_t job() const;
  std::int64_t number(const char* parameter) const;
};

/// Digits alone; throws Refusal.
std::int64_t as_number(const std::string& text, const char* what);

class Api {
 public:
  Api(Context& context, SessionStore& sessions) : context_(context), session_store_(sessions) {}

  Json session(const Call& call);                 ///< {token, version, date}
  Json invite(const Call& call);                  ///< {url, code, qr}
  Json families(const Call& call);                ///< {families: [{id, name, status, features}], questions}
  Json guess(const Call& call);                   ///< {families: [{id, name, p, why}]}
  Json read_number(const Call& call);             ///< a number as it is typed: its parts, what is wanted next, what was forgiven
  Json pack(const Call& call);                    ///< a pack's features, values, places, numbers ...
  Json jobs(const Call& call);                    ///< {jobs}
  Json new_job(const Call& call);                 ///< {job}
  Json job(const Call& call);                     ///< {job, change, entries: [E], now: S}
  Json entries(const Call& call);                 ///< {saved: [tap], conflicts: [{tap, theirs: E}], change, entries, now}
  Json history(const Call& call);                 ///< {entries: [E]}
  Json next(const Call& call);                    ///< {checks, note, minutes}
  Json review(const Call& call);                  ///< verdicts by place, numbers, what is open
  Json why(const Call& call);                     ///< one verdict: facts, sources, odds with and without it
  Json keep_photo(const Call& call);              ///< {photo, change}
  void photo(const Call& call);                   ///< the picture itself
  void report(const Call& call);                  ///< HTML, PDF or text

 private:
  Json checks(const State& state, const std::string& aim, std::size_t most, std::optional<double> minutes);
  Json after(std::int64_t job, std::int64_t since, const std::vector<std::pair<std::string, std::string>>& edited);

  Context& context_;
  SessionStore& session_store_;
  std::timed_mutex pdf_;
};

}  // namespace exworks::cli::web
