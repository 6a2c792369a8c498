#pragma once
#include <atomic>
#include <map>
#include <mutex>

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
  void end();

 private:
  bool process_and_close_socket(socket_t socket) override;
  bool enter(const std::string& address);
  void leave(const std::string& address);

  std::atomic<bool> stopping_{false};
  std::mutex mutex_;
  std::map<std::string, std::size_t> inside_;  ///< connections by address
  std::atomic<std::size_t> all_inside_{0};
};

}  // namespace exworks::cli::web
