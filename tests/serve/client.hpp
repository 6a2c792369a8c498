#pragma once
#include <sys/types.h>

#include <filesystem>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

/// `exworks serve` as a program of its own, and a phone as the network sees it: raw HTTP/1.1 (RFC 9112) on a socket, with no code
/// shared with the server.
namespace exworks::serve_test {

using Json = nlohmann::json;

struct Reply {
  int status = 0;  ///< 0: the connection ended without an answer
  std::map<std::string, std::string> headers;  ///< names in small letters
  std::string body;
  Json json() const { return Json::parse(body, nullptr, false); }
};

class Served {
 public:
  /// Starts the program on a port of the system's choice and waits for its first code.
  Served(const std::string& program, const std::filesystem::path& book, const std::filesystem::path& rules);
  ~Served();
  Served(const Served&) = delete;

  int port() const { return port_; }
  /// The code that the console shows now; each can be taken once.
  std::string code();
  std::string host() const { return "127.0.0.1:" + std::to_string(port_); }
  /// SIGKILL, and waits.
  void kill();
  /// SIGTERM; the exit code.
  int end();
  pid_t process() const { return pid_; }

 private:
  std::string line();
  pid_t pid_ = -1;
  int out_ = -1, port_ = 0;
  std::string read_;
};

/// A socket to the server.
class Wire {
 public:
  explicit Wire(int port);
  ~Wire();
  Wire(const Wire&) = delete;
  /// How many bytes went out before the other side would take no more.
  std::size_t send(const std::string& bytes);
  /// Reads one answer, with patience.
  Reply reply(int patience_seconds = 60);
  int socket() const { return socket_; }

 private:
  int socket_;
  std::string read_;
};

/// Sends these bytes as they are on a connection of their own.
Reply ask_raw(int port, const std::string& bytes);

class Phone {
 public:
  /// Joins with the console's code.
  explicit Phone(Served& served);
  Reply get(const std::string& path);
  Reply post(const std::string& path, const Json& body);
  Reply post_bytes(const std::string& path, const std::string& type, const std::string& bytes);
  /// Over a connection that stays open, as a browser does it; a new one when the old was closed.
  void keep_open() { open_ = true; }
  std::string cookie, token;

 private:
  Reply ask(const std::string& head, const std::string& body);
  int port_;
  bool open_ = false;
  std::unique_ptr<Wire> wire_;
};

/// A random name of a tap.
std::string tap_name();

Json tap(const std::string& name, const std::string& feature, const std::string& value, std::int64_t seen = 0);

}  // namespace exworks::serve_test
