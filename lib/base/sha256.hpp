#pragma once
#include <filesystem>
#include <string>
#include <string_view>

namespace exworks {

/// SHA-256 in lower-case hexadecimal.
std::string sha256(std::string_view bytes);

/// The same of a file, read in blocks. Throws FileError.
std::string sha256_of_file(const std::filesystem::path& path);

/// Is this 64 lower-case hexadecimal digits?
bool is_sha256(std::string_view text);

}  // namespace exworks
