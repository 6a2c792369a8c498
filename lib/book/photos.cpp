#include "book/photos.hpp"

#include <fcntl.h>
#include <libexif/exif-data.h>
#include <unistd.h>

#include <algorithm>
#include <memory>

#include "base/file.hpp"
#include "base/sha256.hpp"

namespace exworks {

namespace fs = std::filesystem;

void sync_to_disk(const fs::path& file) {
  for (const fs::path& p : {file, file.has_parent_path() ? file.parent_path() : fs::path(".")}) {
    const int handle = ::open(p.c_str(), O_RDONLY | O_CLOEXEC);
    if (handle < 0) continue;
    const bool failed = ::fsync(handle) != 0 && errno == EIO;
    ::close(handle);
    if (failed) throw FileError{p.string() + ": the disk reports a fault while writing", "check the disk"};
  }
}

fs::path PhotoFolder::file(const std::string& hash) const {
  if (!is_sha256(hash)) throw FileError{"'" + hash + "' is no SHA-256", "a photo's name is 64 hexadecimal digits"};
  return folder_ / hash;
}

std::string PhotoFolder::keep(const std::string& bytes) const {
  const std::string hash = sha256(bytes);
  std::error_code code;
  if (!fs::is_directory(folder_, code)) {
    fs::create_directories(folder_, code);
    fs::permissions(folder_, fs::perms::owner_all, code);
  }
  const fs::path target = file(hash);
  if (fs::exists(target, code) && sha256_of_file(target) == hash) return hash;
  // Under a private name first, with the rights set before a byte is written.
  const fs::path part = folder_ / (hash + ".part");
  const int handle = ::open(part.c_str(), O_CREAT | O_WRONLY | O_TRUNC | O_CLOEXEC, 0600);
  std::size_t written = 0;
  while (handle >= 0 && written < bytes.size()) {
    const ssize_t n = ::write(handle, bytes.data() + written, bytes.size() - written);
    if (n <= 0) break;
    written += static_cast<std::size_t>(n);
  }
  const bool whole = handle >= 0 && written == bytes.size() && ::fsync(handle) == 0;
  if (handle >= 0) ::close(handle);
  if (whole) fs::rename(part, target, code);
  if (!whole || code) {
    fs::remove(part, code);
    throw FileError{folder_.string() + ": the photo can't be kept there", "check the folder, its rights and the space on the disk; nothing was changed"};
  }
  sync_to_disk(target);
  return hash;
}

std::string PhotoFolder::wrong_with(const std::string& hash) const {
  std::error_code code;
  if (!fs::is_regular_file(file(hash), code)) return "is missing";
  return sha256_of_file(file(hash)) == hash ? "" : "was changed after it was taken in";
}

std::vector<std::string> PhotoFolder::names() const {
  std::vector<std::string> out;
  std::error_code code;
  for (const auto& entry : fs::directory_iterator(folder_, code)) out.push_back(entry.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

void PhotoFolder::remove_leftovers() const {
  std::error_code code;
  for (const std::string& name : names()) {
    if (name.ends_with(".part")) fs::remove(folder_ / name, code);
  }
}

void PhotoFolder::remove(const std::string& hash) const {
  std::error_code code;
  fs::remove(file(hash), code);
}

namespace {

/// "2026:11:20 10:15:00" (Exif 2.32, 4.6.5): anything else was not written by a camera.
bool is_exif_date(std::string_view text) {
  constexpr std::string_view shape = "dddd:dd:dd dd:dd:dd";
  return std::equal(text.begin(), text.end(), shape.begin(), shape.end(), [](char c, char s) { return s == 'd' ? c >= '0' && c <= '9' : c == s; });
}

}  // namespace

std::string photo_taken(const std::string& bytes) {
  const std::unique_ptr<ExifData, decltype(&exif_data_unref)> data(
      exif_data_new_from_data(reinterpret_cast<const unsigned char*>(bytes.data()), static_cast<unsigned int>(bytes.size())), exif_data_unref);
  if (!data) return "";
  for (const auto& [part, tag] : {std::pair{EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL}, std::pair{EXIF_IFD_0, EXIF_TAG_DATE_TIME}}) {
    ExifEntry* entry = exif_content_get_entry(data->ifd[part], tag);
    if (entry == nullptr || entry->size < 19) continue;
    std::string text(reinterpret_cast<const char*>(entry->data), 19);  // 2026:11:20 10:15:00
    if (!is_exif_date(text)) continue;
    text[4] = text[7] = '-';
    text[10] = 'T';
    return text;
  }
  return "";
}

std::string photo_type(const std::string& bytes) {
  const auto begins = [&](std::string_view mark, std::size_t at = 0) { return bytes.size() >= at + mark.size() && bytes.compare(at, mark.size(), mark) == 0; };
  if (begins("\xff\xd8\xff")) return "jpg";
  if (begins("\x89PNG\r\n\x1a\n")) return "png";
  if (begins(std::string_view("II*\0", 4)) || begins(std::string_view("MM\0*", 4))) return "tif";
  if (begins("RIFF") && begins("WEBP", 8)) return "webp";
  if (begins("ftypheic", 4) || begins("ftypmif1", 4)) return "heic";
  return "";
}

}  // namespace exworks
