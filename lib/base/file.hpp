#pragma once
#include <filesystem>
#include <iosfwd>
#include <string>
#include <string_view>

namespace exworks {

/// Something outside could not be read or written (exit code 4 of the command).
struct FileError {
  std::string what;
  std::string remedy;
};

/// The whole file. Throws FileError when it is missing, not a regular file, over 64 MiB, or unreadable.
/// A pipe, a socket, a device: in a folder of files nobody waits for what it may bring one day. What can't be looked at is none.
bool is_special(const std::filesystem::directory_entry& entry);

/// The rest of a stream that is called `name` in errors.
std::string read_stream(std::istream& in, const std::string& name);
std::string read_file(const std::filesystem::path& path);

/// Writes beside the target and renames, so that the target is either the old file or the whole new one. Throws FileError.
void write_file(const std::filesystem::path& path, std::string_view content);

}  // namespace exworks
