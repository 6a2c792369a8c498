#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace exworks {

/// Photos beside a book: the original bytes, each file named by its SHA-256, so that the same photo is kept once and an
/// edited one is found. Files are mode 0600. Throws FileError.
class PhotoFolder {
 public:
  explicit PhotoFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

  /// Keeps these bytes and returns their SHA-256; on the disk before it returns.
  std::string keep(const std::string& bytes) const;
  std::filesystem::path file(const std::string& hash) const;
  /// "" when it is there and unchanged, else what is wrong with it.
  std::string wrong_with(const std::string& hash) const;
  /// Names in the folder, sorted.
  std::vector<std::string> names() const;
  void remove(const std::string& hash) const;
  /// What runs that were killed while they wrote have left.
  void remove_leftovers() const;

 private:
  std::filesystem::path folder_;
};

/// When the camera says that it took the photo (EXIF), as "2026-11-20T10:15:00", or "" when it doesn't say.
std::string photo_taken(const std::string& bytes);

/// Is it a photo by its first bytes? "jpg", "png", "tif", "webp", "heic" or "".
std::string photo_type(const std::string& bytes);

/// Waits until file and folder are on the disk.
void sync_to_disk(const std::filesystem::path& file);

}  // namespace exworks
