#pragma once
#include <functional>
#include <string>

#include "web/api/api.hpp"
#include "web/sessions/request_filter.hpp"
#include "web/http/http_server.hpp"

namespace exworks::cli::web {

/// The guided inspection over HTTP: pages, questions and answers. The log holds which kind of address was asked, and how that ended.
class Server {
 public:
  /// `trouble` is told what goes wrong on this computer (a full disk, a fault), never what a job holds.
  using Trouble = std::function<void(const std::string& words)>;
  Server(Context& context, SessionStore& sessions, Trouble trouble) : api_(context, sessions), session_store_(sessions), trouble_(std::move(trouble)) {}

  /// Returns the port, or 0 when it can't be had.
  int bind(bool whole_network, int port);
  void serve() { http_.serve(); }
  void end() { http_.end(); }

 private:
  /// Answers what needs no body, and everything that is refused. False: the body is wanted.
  bool before_body(const httplib::Request& request, httplib::Response& response);
  void with_body(const httplib::Request& request, httplib::Response& response);
  void dispatch(const httplib::Request& request, httplib::Response& response, const std::optional<Session>& session);
  void api(const Call& call);
  void join(const httplib::Request& request, httplib::Response& response);
  void page(const std::string& name, httplib::Response& response) const;
  /// Runs `work` and tells in the answer what it throws. False: it threw.
  bool told(const httplib::Request& request, httplib::Response& response, const std::function<void()>& work);

  Api api_;
  SessionStore& session_store_;
  Trouble trouble_;
  std::optional<RequestFilter> filter_;
  HttpServer http_;
};

}  // namespace exworks::cli::web
