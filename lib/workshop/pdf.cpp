#include "workshop/pdf.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string_view>
#include <thread>
#include <vector>

#include "base/file.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone with the object.
class Scratch {
 public:
  Scratch() {
    std::string name = (fs::temp_directory_path() / "exworks-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw FileError{"no temporary folder could be made in " + fs::temp_directory_path().string(), "see that it exists and can be written"};
    path_ = name;
  }
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

/// Ours, but with the two settings that make weasyprint write the same bytes for the same page.
std::vector<std::string> steady_environment() {
  std::vector<std::string> out{"PYTHONHASHSEED=0", "SOURCE_DATE_EPOCH=0"};
  for (char** entry = environ; *entry != nullptr; ++entry) {
    const std::string_view text = *entry;
    if (!text.starts_with("PYTHONHASHSEED=") && !text.starts_with("SOURCE_DATE_EPOCH=")) out.emplace_back(text);
  }
  return out;
}

constexpr rlim_t most_memory = rlim_t{3} << 30;  ///< a report with its photos takes a tenth of it
constexpr std::chrono::seconds most_time{120};
constexpr int out_of_time = -1;

/// Its exit code; a program that takes too long is ended.
int ended(pid_t child) {
  const auto until = std::chrono::steady_clock::now() + most_time;
  int status = 0;
  for (;;) {
    const pid_t done = waitpid(child, &status, WNOHANG);
    if (done == child) return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
    if (done < 0 && errno != EINTR) return 127;
    if (std::chrono::steady_clock::now() > until) {
      kill(child, SIGKILL);
      waitpid(child, &status, 0);
      return out_of_time;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
}

/// Runs the program without a shell, its talk going to `log`; the exit code, or 127 when it isn't there.
int run(std::array<const char*, 6> arguments, const fs::path& log) {
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, log.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  posix_spawn_file_actions_adddup2(&actions, STDOUT_FILENO, STDERR_FILENO);
  std::vector<std::string> settings = steady_environment();
  std::vector<char*> environment;
  for (std::string& setting : settings) environment.push_back(setting.data());
  environment.push_back(nullptr);
  // What the server blocks for its own end, and ignores, its helper doesn't.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t none, usual;
  sigemptyset(&none);
  sigemptyset(&usual);
  for (const int s : {SIGINT, SIGTERM, SIGPIPE, SIGXFSZ}) sigaddset(&usual, s);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setsigdefault(&attributes, &usual);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  pid_t child = 0;
  const int failed = posix_spawnp(&child, arguments[0], &actions, &attributes, const_cast<char* const*>(arguments.data()), environment.data());
  posix_spawn_file_actions_destroy(&actions);
  posix_spawnattr_destroy(&attributes);
  if (failed != 0) return 127;
  const rlimit memory{most_memory, most_memory};
  prlimit(child, RLIMIT_AS, &memory, nullptr);
  return ended(child);
}

}  // namespace

std::string pdf_of(const std::string& html) {
  const Scratch scratch;
  const std::string page = (scratch.path() / "report.html").string(), pdf = (scratch.path() / "report.pdf").string();
  write_file(page, html);
  const fs::path log = scratch.path() / "log";
  const int code = run({"weasyprint", "--encoding", "utf-8", page.c_str(), pdf.c_str(), nullptr}, log);
  if (code == 127) throw FileError{"the PDF can't be made: the program weasyprint is not installed", "install it (apt-get install weasyprint), or write .html and print it from a browser"};
  if (code == out_of_time) throw FileError{"the PDF took longer than " + std::to_string(most_time.count()) + " seconds to make", "leave out large photos, or write .html and print it from a browser"};
  if (code != 0 || !fs::exists(pdf)) {
    std::string said = fs::exists(log) ? read_file(log) : "";
    if (said.size() > 400) said = said.substr(said.size() - 400);
    throw FileError{"weasyprint could not make the PDF: " + said, "write .html and print it from a browser"};
  }
  return read_file(pdf);
}

}  // namespace exworks
