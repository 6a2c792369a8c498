#include "base/file.hpp"

#include <cstdint>
#include <fstream>
#include <sstream>
#include <system_error>

namespace exworks {

namespace fs = std::filesystem;

namespace {
constexpr std::uintmax_t size_limit = 64u * 1024u * 1024u;
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
  std::string text;
  char block[1 << 16];
  while (in.read(block, sizeof block) || in.gcount() > 0) {
    text.append(block, static_cast<std::size_t>(in.gcount()));
    if (text.size() > size_limit) throw FileError{path.string() + ": more than 64 MiB of input", "check the name"};
  }
  if (in.bad()) throw FileError{path.string() + ": reading failed half-way", "check the disk"};
  return text;
}

void write_file(const fs::path& path, std::string_view content) {
  fs::path beside = path;
  beside += ".part";
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(content.data(), static_cast<std::streamsize>(content.size()));
    out.flush();
    if (!out) {
      std::error_code ignored;
      fs::remove(beside, ignored);
      throw FileError{path.string() + ": can't be written", "check the folder, its rights and the space on the disk"};
    }
  }
  std::error_code code;
  fs::rename(beside, path, code);
  if (code) {
    std::error_code ignored;
    fs::remove(beside, ignored);
    throw FileError{path.string() + ": can't be written (" + code.message() + ")", "check the folder and its rights"};
  }
}

}  // namespace exworks
