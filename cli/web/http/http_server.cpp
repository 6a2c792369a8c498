#include "web/http/http_server.hpp"

#include <sys/socket.h>
#include <unistd.h>

#include <cstdlib>

#include "web/http/connection.hpp"

namespace exworks::cli::web {

using namespace std::chrono_literals;

namespace {

// A phone keeps one or two connections open; a thread each.
constexpr std::size_t threads = 128, most_of_one_address = 96, crowded = threads - 16;
constexpr int most_requests = 10'000;

/// The body's length as announced; 0 for none. What is no number is refused before this matters (request_filter.cpp).
std::size_t announced(const httplib::Request& request) {
  const std::string text = request.get_header_value("Content-Length");
  return text.empty() ? 0 : static_cast<std::size_t>(std::strtoull(text.c_str(), nullptr, 10));
}

}  // namespace

HttpServer::HttpServer() : connections_(most_of_one_address) {
  new_task_queue = [] { return new httplib::ThreadPool(threads); };
  set_tcp_nodelay(true);
  // Not the library's own choice, SO_REUSEPORT: with it a second program could take a share of our connections.
  set_socket_options([](socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
}

int HttpServer::bind_address(const std::string& address, int port) {
  const int bound = port == 0 ? bind_to_any_port(address) : bind_to_port(address, port) ? port : 0;
  if (bound <= 0) return 0;
  // The library lets five connections wait; a workshop's phones come all at once.
  ::listen(svr_sock_, 256);
  return bound;
}

void HttpServer::serve() { listen_after_bind(); }

void HttpServer::end() {
  stopping_ = true;
  // Not the library's stop: it loses one that comes before it has begun to listen. Without its socket the library listens no more, and
  // one that has not begun never does.
  const socket_t listening = svr_sock_.exchange(INVALID_SOCKET);
  if (listening == INVALID_SOCKET) return;
  ::shutdown(listening, SHUT_RDWR);
  ::close(listening);
}

bool HttpServer::process_and_close_socket(socket_t socket) {
  Connection connection(socket);
  const ConnectionLimit::Place place(connections_, connection.remote_address());
  if (!place.had()) return false;
  for (int n = 1; n <= most_requests; ++n) {
    if (!connection.wait(n > 1 && connections_.all() > crowded ? 200ms : 5000ms, stopping_)) break;
    connection.begin_head();
    bool closed = false;
    const auto prepare = [&](httplib::Request& request) {
      // Parts of files are never asked for by our pages, and many small ranges of one file are a way to make work.
      request.ranges.clear();
      request.headers.erase("Range");
      connection.begin_body(announced(request));
    };
    const bool last = stopping_ || n == most_requests;
    if (!process_request(connection, last, closed, prepare) || closed || last || !connection.usable()) break;
  }
  return true;
}

}  // namespace exworks::cli::web
