#pragma once
#include <atomic>

#include "web/http/connection_limit.hpp"
#include "web/http/http.hpp"

namespace exworks::cli::web {

/// The HTTP library's server on our own connections: nobody holds a thread for long, and no address holds most of them.
class HttpServer : public httplib::Server {
 public:
  HttpServer();
  /// Returns the port, or 0 when it can't be had. `port` 0: any.
  int bind_address(const std::string& address, int port);
  /// Serves until `end` is called; requests that are under way are finished.
  void serve();
  /// Ends `serve`, at once where it has not begun.
  void end();

 private:
  bool process_and_close_socket(socket_t socket) override;

  std::atomic<bool> stopping_{false};
  ConnectionLimit connections_;
};

}  // namespace exworks::cli::web
