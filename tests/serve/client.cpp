#include "serve/client.hpp"

#include <arpa/inet.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <random>
#include <stdexcept>
#include <string_view>

extern char** environ;

namespace exworks::serve_test {

Served::Served(const std::string& program, const std::filesystem::path& book, const std::filesystem::path& rules) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("no pipe");
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, (book.string() + ".stderr").c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
  posix_spawn_file_actions_addclose(&actions, ends[0]);
  const std::string book_text = book.string(), rules_text = rules.string();
  std::vector<std::string> words{program, "serve", "--port", "0", "--json", "--book", book_text, "--rules", rules_text};
  std::vector<char*> arguments;
  for (std::string& w : words) arguments.push_back(w.data());
  arguments.push_back(nullptr);
  // Its log stays with its book.
  std::string state = "XDG_STATE_HOME=" + book.parent_path().string();
  std::vector<char*> environment;
  for (char** at = environ; *at != nullptr; ++at) {
    if (!std::string_view(*at).starts_with("XDG_STATE_HOME=")) environment.push_back(*at);
  }
  environment.push_back(state.data());
  environment.push_back(nullptr);
  if (posix_spawn(&pid_, program.c_str(), &actions, nullptr, arguments.data(), environment.data()) != 0) throw std::runtime_error("the program does not start");
  posix_spawn_file_actions_destroy(&actions);
  close(ends[1]);
  out_ = ends[0];
  const Json first = Json::parse(line());
  port_ = first.at("port").get<int>();
  read_ = first.dump() + "\n" + read_;
}

Served::~Served() {
  if (pid_ > 0) kill();
  if (out_ >= 0) close(out_);
}

std::string Served::line() {
  for (;;) {
    const std::size_t end = read_.find('\n');
    if (end != std::string::npos) {
      std::string out = read_.substr(0, end);
      read_.erase(0, end + 1);
      return out;
    }
    char buffer[4096];
    const ssize_t n = ::read(out_, buffer, sizeof buffer);
    if (n <= 0) throw std::runtime_error("the program ended");
    read_.append(buffer, static_cast<std::size_t>(n));
  }
}

std::string Served::code() { return Json::parse(line()).at("code").get<std::string>(); }

void Served::kill() {
  ::kill(pid_, SIGKILL);
  waitpid(pid_, nullptr, 0);
  pid_ = -1;
}

int Served::end() {
  ::kill(pid_, SIGTERM);
  int status = 0;
  waitpid(pid_, &status, 0);
  pid_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

Wire::Wire(int port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) {
    ::close(socket_);
    throw std::runtime_error("no connection");
  }
}

Wire::~Wire() { ::close(socket_); }

std::size_t Wire::send(const std::string& bytes) {
  std::size_t sent = 0;
  while (sent < bytes.size()) {
    const ssize_t n = ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (n <= 0) break;
    sent += static_cast<std::size_t>(n);
  }
  return sent;
}

namespace {

/// The head of an answer; false while it isn't whole.
bool parse_head(const std::string& text, Reply& reply, std::size_t& body_at) {
  const std::size_t end = text.find("\r\n\r\n");
  if (end == std::string::npos) return false;
  reply.status = std::stoi(text.substr(9, 3));
  for (std::size_t at = text.find("\r\n") + 2; at < end;) {
    const std::size_t stop = text.find("\r\n", at), colon = text.find(':', at);
    std::string name = text.substr(at, colon - at);
    for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    const std::size_t value = text.find_first_not_of(' ', colon + 1);
    reply.headers[name] = text.substr(value, stop - value);
    at = stop + 2;
  }
  body_at = end + 4;
  return true;
}

}  // namespace

Reply Wire::reply(int patience_seconds) {
  Reply out;
  for (;;) {
    std::size_t body_at = 0;
    if (parse_head(read_, out, body_at)) {
      const std::size_t length = out.headers.count("content-length") ? std::stoul(out.headers["content-length"]) : 0;
      if (read_.size() >= body_at + length) {
        out.body = read_.substr(body_at, length);
        read_.erase(0, body_at + length);
        return out;
      }
    }
    pollfd wanted{socket_, POLLIN, 0};
    if (::poll(&wanted, 1, patience_seconds * 1000) <= 0) return {};
    char buffer[65536];
    const ssize_t n = ::recv(socket_, buffer, sizeof buffer, 0);
    if (n <= 0) return {};
    read_.append(buffer, static_cast<std::size_t>(n));
  }
}

Reply ask_raw(int port, const std::string& bytes) {
  Wire wire(port);
  wire.send(bytes);
  return wire.reply();
}

Phone::Phone(Served& served) : port_(served.port()) {
  const Reply joined = ask("GET /join?code=" + served.code() + " HTTP/1.1\r\n", "");
  if (joined.status != 303 || !joined.headers.count("set-cookie")) throw std::runtime_error("the phone could not join");
  const std::string set = joined.headers.at("set-cookie");
  cookie = set.substr(0, set.find(';'));
  token = get("/api/session").json().at("token").get<std::string>();
}

Reply Phone::ask(const std::string& head, const std::string& body) {
  const std::string request = head + "Host: 127.0.0.1:" + std::to_string(port_) + "\r\n" + (cookie.empty() ? "" : "Cookie: " + cookie + "\r\n") + (open_ ? "" : "Connection: close\r\n") + "\r\n" + body;
  if (!open_) return ask_raw(port_, request);
  Reply out;
  if (wire_) {
    wire_->send(request);
    out = wire_->reply();
  }
  if (out.status == 0) {
    // The server closed what was idle; edits have names, so that sending again does no harm.
    wire_ = std::make_unique<Wire>(port_);
    wire_->send(request);
    out = wire_->reply();
  }
  return out;
}

Reply Phone::get(const std::string& path) { return ask("GET " + path + " HTTP/1.1\r\n", ""); }

Reply Phone::post_bytes(const std::string& path, const std::string& type, const std::string& bytes) {
  return ask("POST " + path + " HTTP/1.1\r\nX-Exworks-Token: " + token + "\r\nContent-Type: " + type + "\r\nContent-Length: " + std::to_string(bytes.size()) + "\r\n", bytes);
}

Reply Phone::post(const std::string& path, const Json& body) { return post_bytes(path, "application/json", body.dump()); }

std::string tap_name() {
  static std::atomic<unsigned> turn{0};
  static const unsigned run = std::random_device{}();
  char text[40];
  std::snprintf(text, sizeof text, "%08x%08x%08x", run, turn++, static_cast<unsigned>(getpid()));
  return text;
}

Json tap(const std::string& name, const std::string& feature, const std::string& value, std::int64_t seen) {
  return {{"tap", name}, {"kind", "observed"}, {"name", feature}, {"fields", {{"value", value}}}, {"seen", seen}};
}

}  // namespace exworks::serve_test
