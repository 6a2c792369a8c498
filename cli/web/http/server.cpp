#include "web/http/server.hpp"

#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "log.hpp"
#include "web/http/assets.hpp"
#include "web/http/connection.hpp"

namespace exworks::cli::web {

namespace {

constexpr const char* page_policy = "default-src 'self'; img-src 'self' blob: data:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

void send_json(httplib::Response& response, int status, const Json& json) {
  response.status = status;
  // Text that is no UTF-8 can't be in the book; were it there, it must not stop the answer.
  response.set_content(json.dump(-1, ' ', false, Json::error_handler_t::replace), "application/json; charset=utf-8");
}

std::vector<std::string> parts_of(const std::string& path) {
  std::vector<std::string> out;
  std::size_t at = 1;
  while (at < path.size()) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    out.push_back(path.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

void redirect(httplib::Response& response, const char* where) {
  response.status = 303;
  response.set_header("Location", where);
}

void refuse(const httplib::Request& request, httplib::Response& response, const Refusal& r) {
  // A person who opens a page without having joined is led to where one joins.
  const bool page = request.method == "GET" && request.path.compare(0, 5, "/api/") != 0 && request.path.compare(0, 7, "/photo/") != 0;
  if (r.status == 401 && page) return redirect(response, "/join");
  Json json = {{"error", r.words}};
  if (r.retry_seconds > 0) {
    json["retry"] = r.retry_seconds;
    response.set_header("Retry-After", std::to_string(r.retry_seconds));
  }
  send_json(response, r.status, json);
}

/// The one pattern of an address: "jobs/*/entries" with * for a part.
bool fits(const std::vector<std::string>& parts, std::string_view pattern) {
  std::size_t i = 1;  // after "api"
  for (std::size_t at = 0; at <= pattern.size(); ++i) {
    const std::size_t end = std::min(pattern.find('/', at), pattern.size());
    const std::string_view wanted = pattern.substr(at, end - at);
    if (i >= parts.size() || (wanted != "*" && parts[i] != wanted)) return false;
    at = end + 1;
  }
  return i == parts.size();
}

struct Route {
  bool post;
  Word pattern;
  Json (Api::*method)(const Call&);
};

constexpr Route routes[] = {
    {false, "session", &Api::session},       {true, "invite", &Api::invite},           {false, "families", &Api::families},   {true, "guess", &Api::guess},
    {true, "read", &Api::read_number},
    {false, "pack/*", &Api::pack},           {false, "jobs", &Api::jobs},              {true, "jobs", &Api::new_job},         {false, "jobs/*", &Api::job},
    {true, "jobs/*/entries", &Api::entries}, {false, "jobs/*/history", &Api::history}, {false, "jobs/*/next", &Api::next},    {false, "jobs/*/review", &Api::review},
    {false, "jobs/*/why/*", &Api::why},      {true, "jobs/*/photo", &Api::keep_photo},
};

/// Which address was asked, without what stands in it.
Word address_word(const std::vector<std::string>& parts) {
  if (parts.empty()) return "/";
  if (parts[0] == "join") return "join";
  if (parts[0] == "assets") return "assets";
  if (parts[0] == "photo") return "photo";
  if (parts[0] == "report") return "report";
  if (parts[0] == "api") {
    for (const Route& r : routes) {
      if (fits(parts, r.pattern.text())) return r.pattern;
    }
  }
  return "unknown";
}

Word why_refused(int status) {
  switch (status) {
    case 400: return "not understood";
    case 401: return "not joined";
    case 403: return "from another page";
    case 404: return "no such thing";
    case 405: return "wrong method";
    case 411: case 413: return "too large or of no stated length";
    case 415: return "wrong kind of body";
    case 421: return "wrong address";
    case 429: return "too many at once";
    case 503: return "job book not readable or writable";
    default: return "other";
  }
}

/// Notes one request when it is answered.
class Noted {
 public:
  Noted(const httplib::Request& request, const httplib::Response& response) : request_(request), response_(response) {}
  Noted(const Noted&) = delete;
  Noted& operator=(const Noted&) = delete;
  /// It is answered elsewhere, once its body has come.
  void leave() { left_ = true; }
  ~Noted() {
    if (left_) return;
    const int status = response_.status;
    const Word method = request_.method == "GET" ? Word("GET") : request_.method == "POST" ? Word("POST") : Word("other");
    const Word address = address_word(parts_of(request_.path));
    if (status < 400) log(LogLevel::info, "request", {{"method", method}, {"address", address}, {"status", status}, {"ms", watch_.milliseconds()}});
    else log(status >= 500 ? LogLevel::error : LogLevel::warning, "refused", {{"method", method}, {"address", address}, {"status", status}, {"why", why_refused(status)}, {"ms", watch_.milliseconds()}});
  }

 private:
  const httplib::Request& request_;
  const httplib::Response& response_;
  Stopwatch watch_;
  bool left_ = false;
};

}  // namespace

int Server::bind(bool whole_network, int port) {
  http_.set_payload_max_length(most_photo);
  http_.set_default_headers({{"X-Content-Type-Options", "nosniff"}, {"Referrer-Policy", "no-referrer"}, {"Cross-Origin-Resource-Policy", "same-origin"}, {"X-Frame-Options", "DENY"}});
  http_.set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
    return before_body(request, response) ? httplib::Server::HandlerResponse::Handled : httplib::Server::HandlerResponse::Unhandled;
  });
  // A sender that asks first is told no before it sends.
  http_.set_expect_100_continue_handler([this](const httplib::Request& request, httplib::Response& response) {
    Noted noted(request, response);
    if (told(request, response, [&] { filter_->check(request); })) {
      noted.leave();
      return 100;
    }
    Connection::current()->refuse_rest();
    response.set_header("Connection", "close");
    return response.status;
  });
  http_.Post("/.*", [this](const httplib::Request& request, httplib::Response& response) { with_body(request, response); });
  const int bound = http_.bind_address(whole_network ? "0.0.0.0" : "127.0.0.1", port);
  if (bound > 0) filter_.emplace(session_store_, bound);
  return bound;
}

bool Server::told(const httplib::Request& request, httplib::Response& response, const std::function<void()>& work) {
  try {
    work();
    return true;
  } catch (const Refusal& r) {
    refuse(request, response, r);
  } catch (const EditMisused&) {
    refuse(request, response, {400, "the name of an answer was used for another one; load the page again"});
  } catch (const FileError& e) {
    trouble_(e.what + "; " + e.remedy);
    refuse(request, response, {503, "the job book can't be read or written just now; what is wrong stands on the computer that runs exworks", 5});
  } catch (const std::exception& e) {
    trouble_(std::string("a fault of the program: ") + e.what() + "; please report it with what was done before");
    refuse(request, response, {500, "a fault of the program; what is wrong stands on the computer that runs exworks"});
  }
  return false;
}

bool Server::before_body(const httplib::Request& request, httplib::Response& response) {
  response.set_header("Content-Security-Policy", page_policy);
  response.set_header("Cache-Control", "no-store");
  std::optional<Session> session;
  Noted noted(request, response);
  const bool good = told(request, response, [&] { session = filter_->check(request); });
  if (good && request.method == "POST") {
    noted.leave();
    return false;
  }
  if (!good) {
    // What was announced stays unread, so nothing after it could be understood.
    if (request.method != "GET" || request.has_header("Content-Length") || request.has_header("Transfer-Encoding")) {
      Connection::current()->refuse_rest();
      response.set_header("Connection", "close");
    }
    return true;
  }
  told(request, response, [&] { dispatch(request, response, session); });
  return true;
}

void Server::with_body(const httplib::Request& request, httplib::Response& response) {
  const Noted noted(request, response);
  told(request, response, [&] {
    // Checked anew, without counting it twice: while the body came, the session may have ended.
    const auto session = filter_->session(request);
    if (!session && !open_to_all(request.path)) throw Refusal{401, "this device is not joined; type the code that the console shows"};
    dispatch(request, response, session);
  });
}

void Server::dispatch(const httplib::Request& request, httplib::Response& response, const std::optional<Session>& session) {
  const std::vector<std::string> parts = parts_of(request.path);
  if (request.path == "/join") return join(request, response);
  if (request.path == "/") return page("index.html", response);
  if (parts.size() == 2 && parts[0] == "assets") return page(parts[1], response);
  const Call call{request, response, parts, session ? session->token : "", filter_->own_address()};
  if (parts.size() >= 2 && parts[0] == "api") return api(call);
  if (parts.size() == 2 && parts[0] == "photo" && request.method != "POST") return api_.photo(call);
  if (parts.size() == 2 && parts[0] == "report" && request.method != "POST") return api_.report(call);
  throw Refusal{404, "there is no such address; go to /"};
}

void Server::api(const Call& call) {
  const bool post = call.request.method == "POST";
  bool known = false;
  for (const Route& r : routes) {
    if (!fits(call.parts, r.pattern.text())) continue;
    known = true;
    if (r.post == post) return send_json(call.response, 200, (api_.*r.method)(call));
  }
  if (known) throw Refusal{405, "this address is asked in another way; load the page again"};
  throw Refusal{404, "there is no such address; load the page again"};
}

void Server::join(const httplib::Request& request, httplib::Response& response) {
  const bool code_given = request.has_param("code");
  if (request.method == "HEAD" || !code_given) return page("join.html", response);
  const auto answer = session_store_.join(request.get_param_value("code"), request.remote_addr, Clock::now());
  if (!answer.session) {
    log(LogLevel::warning, "wrong code", {{"wait_seconds", answer.wait_seconds}});
    if (answer.wait_seconds > 0) response.set_header("Retry-After", std::to_string(answer.wait_seconds));
    return redirect(response, "/join#wrong");
  }
  log(LogLevel::info, "a device joined");
  response.set_header("Set-Cookie", filter_->cookie_name() + "=" + answer.session->cookie + "; HttpOnly; SameSite=Strict; Path=/");
  redirect(response, "/");
}

void Server::page(const std::string& name, httplib::Response& response) const {
  const Asset* asset = find_asset(name);
  if (asset == nullptr) throw Refusal{404, "there is no such page; go to /"};
  response.status = 200;
  response.set_content(asset->content.data(), asset->content.size(), media_type(name));
}

}  // namespace exworks::cli::web
