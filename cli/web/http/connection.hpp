#pragma once
#include <array>
#include <atomic>
#include <chrono>

#include "web/http/http.hpp"

namespace exworks::cli::web {

/// One connection, as the HTTP library reads and writes it, with limits that no sender can stretch: the head of a request in
/// ten seconds and 32 KiB, its body at 16 KiB a second and no more than was announced, the answer taken within a minute.
class Connection : public httplib::Stream {
 public:
  explicit Connection(int socket);
  Connection(const Connection&) = delete;
  ~Connection() override;

  /// The connection that this thread is serving; never null inside a request.
  static Connection* current();

  /// Waits for the first byte of the next request. False: closed, nothing came in time, or `stopping`.
  bool wait(std::chrono::milliseconds patience, const std::atomic<bool>& stopping);
  void begin_head();
  void begin_body(std::size_t length);
  /// What was announced is not read: after the answer nothing more can be understood on this connection.
  void refuse_rest() { closing_ = true; }
  bool usable() const { return !closing_ && !failed_; }
  const std::string& remote_address() const { return remote_; }
  const std::string& local_address() const { return local_; }

  bool is_readable() const override { return true; }
  bool is_writable() const override { return !failed_; }
  ssize_t read(char* to, std::size_t size) override;
  ssize_t write(const char* from, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  socket_t socket() const override { return socket_; }

 private:
  using Clock = std::chrono::steady_clock;
  bool fill();
  bool poll_until(short events, Clock::time_point until);

  int socket_;
  std::string remote_, local_;
  int remote_port_ = 0, local_port_ = 0;
  std::array<char, 16384> buffer_{};
  std::size_t at_ = 0, end_ = 0;
  std::size_t left_ = 0;          ///< bytes that this part of the request may still have
  Clock::time_point deadline_{};
  bool closing_ = false, failed_ = false;
};

}  // namespace exworks::cli::web
