#include <unistd.h>

#include <csignal>
#include <iostream>
#include <nlohmann/json.hpp>
#include <thread>

#include "base/file.hpp"
#include "command.hpp"
#include "report/render/page.hpp"
#include "verbs/open_book.hpp"
#include "verbs/verbs.hpp"
#include "web/http/server.hpp"
#include "web/sessions/addresses.hpp"
#include "web/sessions/qr.hpp"

namespace exworks::cli {

namespace {

using Options = ServeArguments;

/// Ctrl-C and SIGTERM end the server in order. They are blocked in every thread and waited for in one of its own.
class Ending {
 public:
  Ending() {
    sigemptyset(&signals_);
    for (int s : {SIGINT, SIGTERM}) sigaddset(&signals_, s);
    pthread_sigmask(SIG_BLOCK, &signals_, nullptr);
  }
  void watch(web::Server& server) {
    waiter_ = std::jthread([this, &server](const std::stop_token& over) {
      const timespec tick{0, 200'000'000};
      while (!over.stop_requested()) {
        if (sigtimedwait(&signals_, nullptr, &tick) > 0) return server.end();
      }
    });
  }

 private:
  sigset_t signals_{};
  std::jthread waiter_;
};

/// Tells the address with a code, each time that there is a new one.
class Console {
 public:
  explicit Console(const Options& o) : options_(o) {}
  void set_address(std::string address, int port) {
    address_ = std::move(address);
    port_ = port;
  }
  void show(const std::string& code) {
    const std::lock_guard lock(mutex_);
    const std::string url = "http://" + address_ + ":" + std::to_string(port_) + "/join?code=" + code;
    if (options_.json) {
      std::cout << nlohmann::ordered_json{{"url", url}, {"code", code}, {"address", address_}, {"port", port_}}.dump() << std::endl;
      return;
    }
    std::cout << (options_.lan ? "\nOn the phone (same network), or on this computer: " : "\nOpen on this computer: ") << url << "\nCode: " << code << "  (admits one device, once)\n";
    if (options_.lan && isatty(STDOUT_FILENO) == 1) std::cout << '\n' << web::qr_for_terminal(url);
    std::cout << std::flush;
  }
  void trouble(const std::string& words) {
    const std::lock_guard lock(mutex_);
    tell(harmless(words));
  }

 private:
  const Options& options_;
  std::mutex mutex_;
  std::string address_;
  int port_ = 0;
};

std::string own_address(const Options& o) {
  if (!o.lan) return "127.0.0.1";
  const auto found = web::network_addresses();
  if (found.empty()) throw FileError{"this computer has no address on a network", "join a network, or leave out --lan to use it on this computer alone"};
  return found.front();
}

}  // namespace

int run(const ServeArguments& o) {
  // Whoever reads our output may have gone; the phones have not.
  std::signal(SIGPIPE, SIG_IGN);
  Ending ending;
  web::Context context(open_book(o), rules_folders(o.rules));
  const auto left_out = context.load_packs();
  for (const std::string& wrong : left_out) tell(harmless(wrong), "\nnote: this pack is left out");
  if (context.families().empty()) throw FileError{words(rules_folders(o.rules)) + ": no pack can be used", "name a folder of packs with --rules"};
  Console console(o);
  web::SessionStore sessions([&](const std::string& code) { console.show(code); });
  web::Server server(context, sessions, [&](const std::string& words) { console.trouble(words); });
  const std::string address = own_address(o);
  const int port = server.bind(o.lan, o.port);
  if (port == 0) throw FileError{"port " + std::to_string(o.port) + " can't be had", "another program has it; choose another with --port, or --port 0 for any"};
  console.set_address(address, port);
  sessions.open();
  if (o.lan) tell("note: the connection is not encrypted; use --lan on a network that you trust");
  tell("Ctrl-C ends the server; nothing is lost.");
  log(LogLevel::info, "serving", {{"port", port}, {"lan", o.lan}, {"packs", context.families().size()}, {"left_out", left_out.size()}});
  ending.watch(server);
  server.serve();
  return done;
}

}  // namespace exworks::cli
