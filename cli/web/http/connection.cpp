#include "web/http/connection.hpp"

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace exworks::cli::web {

using namespace std::chrono_literals;

namespace {

constexpr std::size_t most_head = 32 * 1024, slowest_body = 16 * 1024;
constexpr auto head_time = 10s, answer_time = 60s;
thread_local Connection* serving = nullptr;

std::pair<std::string, int> address_of(int socket, decltype(getpeername)* ask) {
  sockaddr_in address{};
  socklen_t size = sizeof address;
  char text[INET_ADDRSTRLEN] = "";
  if (ask(socket, reinterpret_cast<sockaddr*>(&address), &size) != 0 || address.sin_family != AF_INET) return {"", 0};
  inet_ntop(AF_INET, &address.sin_addr, text, sizeof text);
  return {text, ntohs(address.sin_port)};
}

}  // namespace

Connection::Connection(int socket) : socket_(socket) {
  std::tie(remote_, remote_port_) = address_of(socket, getpeername);
  std::tie(local_, local_port_) = address_of(socket, getsockname);
  serving = this;
}

Connection::~Connection() {
  serving = nullptr;
  // Closing with unread bytes resets the connection, and the other side may lose the answer: take a little more of it first.
  ::shutdown(socket_, SHUT_WR);
  const auto until = Clock::now() + 500ms;
  for (std::size_t taken = 0; closing_ && taken < 1024 * 1024 && poll_until(POLLIN, until);) {
    const ssize_t n = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    if (n <= 0) break;
    taken += static_cast<std::size_t>(n);
  }
  ::close(socket_);
}

Connection* Connection::current() { return serving; }

bool Connection::poll_until(short events, Clock::time_point until) {
  for (;;) {
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - Clock::now()).count();
    if (left <= 0) return false;
    pollfd wanted{socket_, events, 0};
    const int n = ::poll(&wanted, 1, static_cast<int>(left));
    if (n > 0) return true;
    if (n < 0 && errno != EINTR) return false;
  }
}

bool Connection::wait(std::chrono::milliseconds patience, const std::atomic<bool>& stopping) {
  if (at_ < end_) return true;
  for (const auto until = Clock::now() + patience; Clock::now() < until && !stopping;) {
    if (poll_until(POLLIN, std::min(until, Clock::now() + 100ms))) return true;
  }
  return false;
}

void Connection::begin_head() {
  left_ = most_head;
  deadline_ = Clock::now() + head_time;
}

void Connection::begin_body(std::size_t length) {
  left_ = length;
  deadline_ = Clock::now() + head_time + std::chrono::seconds(length / slowest_body);
}

bool Connection::fill() {
  while (poll_until(POLLIN, deadline_)) {
    const ssize_t n = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    at_ = 0;
    end_ = static_cast<std::size_t>(n);
    return true;
  }
  failed_ = true;
  return false;
}

ssize_t Connection::read(char* to, std::size_t size) {
  // The deadline holds for bytes that trickle in, too.
  if (failed_ || left_ == 0 || Clock::now() >= deadline_) {
    failed_ = true;
    return -1;
  }
  if (at_ == end_ && !fill()) return -1;
  const std::size_t n = std::min({size, end_ - at_, left_});
  std::memcpy(to, buffer_.data() + at_, n);
  at_ += n;
  left_ -= n;
  return static_cast<ssize_t>(n);
}

ssize_t Connection::write(const char* from, std::size_t size) {
  const auto until = Clock::now() + answer_time;
  std::size_t written = 0;
  while (written < size && !failed_) {
    const ssize_t n = ::send(socket_, from + written, size - written, MSG_NOSIGNAL | MSG_DONTWAIT);
    if (n >= 0) written += static_cast<std::size_t>(n);
    else if (errno == EAGAIN || errno == EWOULDBLOCK) failed_ = !poll_until(POLLOUT, until);
    else if (errno != EINTR) failed_ = true;
  }
  return failed_ ? -1 : static_cast<ssize_t>(written);
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  ip = remote_;
  port = remote_port_;
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  ip = local_;
  port = local_port_;
}

}  // namespace exworks::cli::web
