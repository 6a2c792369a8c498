#include "web/sessions/request_filter.hpp"

#include <algorithm>

#include "web/http/connection.hpp"
#include "web/sessions/secret.hpp"

namespace exworks::cli::web {

namespace {

bool starts(const std::string& text, std::string_view with) { return text.compare(0, with.size(), with) == 0; }

/// The one value of a header that may stand once only.
std::string only(const httplib::Request& r, const char* name) {
  if (r.get_header_value_count(name) > 1) throw Refusal{400, std::string("the header ") + name + " is sent twice; send it once"};
  return r.get_header_value(name);
}

bool is_photo(const std::string& path) { return starts(path, "/api/jobs/") && path.size() > 6 && path.ends_with("/photo"); }

}  // namespace

bool open_to_all(const std::string& path) { return path == "/join" || starts(path, "/assets/"); }

std::string RequestFilter::own_address() const { return "http://" + Connection::current()->local_address() + ":" + std::to_string(port_); }

std::string RequestFilter::cookie_of(const httplib::Request& r) const {
  const std::string wanted = cookie_name() + "=", all = r.get_header_value("Cookie");
  for (std::size_t at = 0; at < all.size();) {
    std::size_t end = all.find(';', at);
    if (end == std::string::npos) end = all.size();
    while (at < end && all[at] == ' ') ++at;
    if (all.compare(at, wanted.size(), wanted) == 0) return all.substr(at + wanted.size(), end - at - wanted.size());
    at = end + 1;
  }
  return "";
}

void RequestFilter::check_shape(const httplib::Request& r) const {
  if (r.method != "GET" && r.method != "HEAD" && r.method != "POST") throw Refusal{405, "this address knows GET and POST alone; ask with one of them"};
  if (r.path.size() > 512 || r.target.size() > 4096) throw Refusal{414, "the address is too long; shorten it"};
  const bool plain = std::all_of(r.path.begin(), r.path.end(), [](char c) { return static_cast<unsigned char>(c) >= ' ' && c != '\\' && c != 127; });
  if (!plain || r.path.find("..") != std::string::npos || r.path.find("//") != std::string::npos) throw Refusal{400, "there is no such address; go to /"};
}

/// A page of another site, or a name that was made to point at us, gets nothing: the address must be ours as a number (or localhost on
/// this computer itself), and a page that sends must have come from the same.
void RequestFilter::check_sender(const httplib::Request& r) const {
  const std::string host = only(r, "Host"), port = ":" + std::to_string(port_);
  const std::string& here = Connection::current()->local_address();
  const bool ours = host == here + port || (host == "localhost" + port && starts(here, "127."));
  if (!ours) throw Refusal{421, "this server answers to its own address alone; use the one that its console shows"};
  const std::string origin = only(r, "Origin"), site = r.get_header_value("Sec-Fetch-Site");
  // A form of a page that tells no referrer sends the origin "null"; the code in it is what counts there.
  const bool join = r.method == "POST" && r.path == "/join" && origin == "null" && (site.empty() || site == "same-origin");
  if (!origin.empty() && origin != "http://" + host && !join) throw Refusal{403, "the request comes from another page; open this server's own address"};
  if (r.method == "POST" && !site.empty() && site != "same-origin" && site != "none") throw Refusal{403, "the request comes from another page; open this server's own address"};
}

void RequestFilter::check_body(const httplib::Request& r) const {
  const std::string length = only(r, "Content-Length");
  if (r.has_header("Transfer-Encoding")) throw Refusal{411, "the length of the body must be told beforehand; send Content-Length"};
  if (length.empty() && r.method == "POST") throw Refusal{411, "the length of the body is not told; send Content-Length"};
  if (length.size() > 12 || length.find_first_not_of("0123456789") != std::string::npos) throw Refusal{413, "the body is too large or its length is no number; send less"};
  const std::size_t bytes = length.empty() ? 0 : std::stoull(length);
  if (r.method != "POST" && bytes > 0) throw Refusal{400, "a question has no body; send it with POST"};
  if (is_photo(r.path) && bytes > most_photo) throw Refusal{413, "the picture is over 20 MB; make it smaller"};
  if (!is_photo(r.path) && bytes > most_body) throw Refusal{413, "the body is over 256 KB; send less at a time"};
  if (r.has_header("Content-Encoding")) throw Refusal{415, "compressed bodies are not accepted; send it as it is"};
  if (r.method != "POST") return;
  const std::string type = r.get_header_value("Content-Type");
  const bool form = r.path == "/join" && starts(type, "application/x-www-form-urlencoded");
  const bool picture = is_photo(r.path) && (starts(type, "image/") || starts(type, "application/octet-stream"));
  if (!form && !picture && !(starts(type, "application/json") && r.path != "/join" && !is_photo(r.path))) throw Refusal{415, "this kind of body is not taken here; send JSON, or a picture"};
}

std::optional<Session> RequestFilter::check(const httplib::Request& r) const {
  const auto now = Clock::now();
  check_shape(r);
  check_sender(r);
  const auto session = session_store_.session(cookie_of(r), now);
  if (!session_store_.may_ask(session ? session->cookie : r.remote_addr, session.has_value(), now)) throw Refusal{429, "too many requests at once; wait a second and try again", 1};
  if (!session && !open_to_all(r.path)) throw Refusal{401, "this device is not joined; type the code that the console shows"};
  check_body(r);
  if (r.method == "POST" && r.path != "/join" && !same_secret(only(r, "X-Exworks-Token"), session->token)) {
    throw Refusal{403, "the token of this page is not the server's; load the page again"};
  }
  return session;
}

}  // namespace exworks::cli::web
