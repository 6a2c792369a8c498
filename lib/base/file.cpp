#include "base/file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdint>
#include <fstream>
#include <system_error>

namespace exworks {

namespace fs = std::filesystem;

namespace {
constexpr std::uintmax_t size_limit = 64u * 1024u * 1024u;
}

bool is_special(const fs::directory_entry& entry) {
  std::error_code ignored;
  return entry.is_other(ignored);
}

std::string read_stream(std::istream& in, const std::string& name) {
  std::string text;
  char block[1 << 16];
  while (in.read(block, sizeof block) || in.gcount() > 0) {
    text.append(block, static_cast<std::size_t>(in.gcount()));
    if (text.size() > size_limit) throw FileError{name + ": more than 64 MiB of input", "a pack or an inspection is never that large; check the name"};
  }
  if (in.bad()) throw FileError{name + ": reading failed half-way", "check the disk"};
  return text;
}

std::string read_file(const fs::path& path) {
  std::error_code code;
  const fs::file_status status = fs::status(path, code);
  if (!fs::exists(status)) throw FileError{path.string() + ": there is no such file", "check the name and the folder"};
  if (fs::is_directory(status)) throw FileError{path.string() + ": this is a folder", "name a file in it"};
  const bool regular = fs::is_regular_file(status);
  if (regular && fs::file_size(path, code) > size_limit) {
    throw FileError{path.string() + ": the file is larger than 64 MiB", "a pack or an inspection is never that large; check the name"};
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) throw FileError{path.string() + ": the file can't be read", "check who may read it"};
  return read_stream(in, path.string());
}

namespace {

[[noreturn]] void not_written(const fs::path& path, const fs::path& beside, const std::string& why) {
  std::error_code ignored;
  fs::remove(beside, ignored);
  throw FileError{path.string() + ": can't be written" + why, "check the folder, its rights and the space on the disk"};
}

/// A new file with the rights that new files get; a file or a link that is there already is never opened, whoever put it there.
int open_beside(const fs::path& path, fs::path& beside) {
  static std::atomic<unsigned> count{0};
  int handle = -1;
  do {
    beside = path.string() + "." + std::to_string(::getpid()) + "-" + std::to_string(count++) + ".part";
    handle = ::open(beside.c_str(), O_CREAT | O_EXCL | O_NOFOLLOW | O_WRONLY | O_CLOEXEC, 0666);
  } while (handle < 0 && errno == EEXIST);
  return handle;
}

}  // namespace

void write_file(const fs::path& path, std::string_view content) {
  fs::path beside;
  const int handle = open_beside(path, beside);
  if (handle < 0) throw FileError{path.string() + ": can't be written", "check the folder, its rights and the space on the disk"};
  std::size_t written = 0;
  while (written < content.size()) {
    const ssize_t n = ::write(handle, content.data() + written, content.size() - written);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    written += static_cast<std::size_t>(n);
  }
  const bool closed = ::close(handle) == 0;
  if (written < content.size() || !closed) not_written(path, beside, "");
  std::error_code code;
  fs::rename(beside, path, code);
  if (code) not_written(path, beside, " (" + code.message() + ")");
}

}  // namespace exworks
