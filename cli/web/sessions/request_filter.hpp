#pragma once
#include <optional>

#include "web/sessions/session_store.hpp"
#include "web/http/http.hpp"
#include "web/http/refusal.hpp"

/// What is checked of every request before a byte of its body is read.
namespace exworks::cli::web {

inline constexpr std::size_t most_photo = 20u * 1024 * 1024, most_body = 256u * 1024;

class RequestFilter {
 public:
  RequestFilter(SessionStore& sessions, int port) : session_store_(sessions), port_(port) {}

  /// Throws Refusal; else the session, when the request has one. Paths that hold no data (join, assets) need none.
  std::optional<Session> check(const httplib::Request& request) const;
  /// The session alone, without counting the request.
  std::optional<Session> session(const httplib::Request& request) const { return session_store_.session(cookie_of(request), Clock::now()); }
  std::string cookie_name() const { return "exworks-" + std::to_string(port_); }
  /// "http://192.168.1.20:8080", as this connection reached us.
  std::string own_address() const;

 private:
  void check_shape(const httplib::Request& request) const;
  void check_sender(const httplib::Request& request) const;
  void check_body(const httplib::Request& request) const;
  std::string cookie_of(const httplib::Request& request) const;

  SessionStore& session_store_;
  int port_;
};

/// Is this path open to a device that hasn't joined?
bool open_to_all(const std::string& path);

}  // namespace exworks::cli::web
