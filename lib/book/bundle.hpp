#pragma once
#include <filesystem>
#include <map>
#include <string>

#include "book/book.hpp"

namespace exworks {

/// One job in one archive, for another workshop: the inspection, its photos, and the latest assessment.
struct Bundle {
  std::string inspection;                     ///< XML
  std::string assessment;                     ///< JSON, "" when there is none
  std::map<std::string, Fields> photos;       ///< what is said of each, by SHA-256
  std::map<std::string, std::string> bytes;   ///< of the photos, by SHA-256
};

/// Is this a bundle by its first bytes (a zip archive), and not an inspection?
bool looks_like_bundle(const std::filesystem::path& file);

void write_bundle(const std::filesystem::path& file, const Bundle& bundle);

/// Reads a bundle that anybody may have made. Nothing of it is unpacked to the disk. Throws BundleRefused, with the reason,
/// when it holds a path out of itself, a link, a file that no bundle has, more than it may, or bytes whose hash is another.
struct BundleRefused {
  std::string what, remedy;
};
Bundle read_bundle(const std::filesystem::path& file);

}  // namespace exworks
