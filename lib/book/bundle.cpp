#include "book/bundle.hpp"

#include <archive.h>
#include <archive_entry.h>

#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/foreign_json.hpp"
#include "book/photos.hpp"
#include "base/sha256.hpp"

namespace exworks {

namespace {

constexpr std::size_t file_limit = 64u << 20, total_limit = 512u << 20, count_limit = 2000;
/// A photo or a text of ours never packs to less than a hundredth; some room for the very small.
constexpr std::size_t ratio_limit = 100, ratio_room = 4u << 20;

using Reader = std::unique_ptr<archive, decltype(&archive_read_free)>;
using Writer = std::unique_ptr<archive, decltype(&archive_write_free)>;
using Item = std::unique_ptr<archive_entry, decltype(&archive_entry_free)>;

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& why) {
  throw BundleRefused{file.string() + ": the bundle is refused: " + why, "ask its sender for one written by 'exworks job export --bundle'; nothing was taken in"};
}

void write_item(archive* out, const std::filesystem::path& file, const std::string& name, const std::string& bytes) {
  const Item item(archive_entry_new(), archive_entry_free);
  archive_entry_set_pathname(item.get(), name.c_str());
  archive_entry_set_size(item.get(), static_cast<la_int64_t>(bytes.size()));
  archive_entry_set_filetype(item.get(), AE_IFREG);
  archive_entry_set_perm(item.get(), 0600);
  const bool written = archive_write_header(out, item.get()) == ARCHIVE_OK && archive_write_data(out, bytes.data(), bytes.size()) == static_cast<la_ssize_t>(bytes.size());
  if (!written) throw FileError{file.string() + ": the bundle can't be written", "check the folder, its rights and the space on the disk"};
}

std::map<std::string, std::string> files_of(const Bundle& b) {
  std::map<std::string, std::string> files{{"inspection.xml", b.inspection}};
  if (!b.assessment.empty()) files["assessment.json"] = b.assessment;
  for (const auto& [hash, bytes] : b.bytes) files["photos/" + hash] = bytes;
  nlohmann::ordered_json manifest = {{"format", 1}, {"files", nlohmann::ordered_json::object()}, {"photos", b.photos}};
  for (const auto& [name, bytes] : files) manifest["files"][name] = sha256(bytes);
  files["manifest.json"] = manifest.dump(2);
  return files;
}

/// Why a name may not be in a bundle; "" when it may.
std::string wrong_name(const std::string& name) {
  if (name.empty()) return "a file in it has no name";
  if (name.front() == '/' || name.find('\\') != std::string::npos || (name.size() > 1 && name[1] == ':')) return "'" + name + "' is an absolute path";
  if (name.find("..") != std::string::npos) return "'" + name + "' leads out of the bundle";
  if (name == "manifest.json" || name == "inspection.xml" || name == "assessment.json") return "";
  if (name.rfind("photos/", 0) == 0 && is_sha256(name.substr(7))) return "";
  return "'" + name + "' has no place in a bundle";
}

/// Reads one item, counting what comes out, whatever its header says.
std::string item_bytes(archive* in, const std::filesystem::path& file, const std::string& name, std::size_t& total, std::size_t packed) {
  std::string bytes;
  char block[1 << 16];
  for (;;) {
    const la_ssize_t n = archive_read_data(in, block, sizeof block);
    if (n == 0) return bytes;
    if (n < 0) refuse(file, "'" + name + "' is damaged");
    bytes.append(block, static_cast<std::size_t>(n));
    total += static_cast<std::size_t>(n);
    if (bytes.size() > file_limit) refuse(file, "'" + name + "' unpacks to more than 64 MiB");
    if (total > total_limit) refuse(file, "it unpacks to more than 512 MiB");
    if (total > packed * ratio_limit + ratio_room) refuse(file, "it unpacks to more than " + std::to_string(ratio_limit) + " times its size");
  }
}

std::map<std::string, std::string> read_items(const std::filesystem::path& file) {
  std::error_code code;
  const auto packed = static_cast<std::size_t>(std::filesystem::file_size(file, code));
  if (code) throw FileError{file.string() + ": there is no such file", "check the name and the folder"};
  const Reader in(archive_read_new(), archive_read_free);
  archive_read_support_format_zip(in.get());
  if (archive_read_open_filename(in.get(), file.c_str(), 1 << 16) != ARCHIVE_OK) refuse(file, "it is no zip archive");
  std::map<std::string, std::string> files;
  std::size_t total = 0;
  archive_entry* item = nullptr;
  for (;;) {
    const int result = archive_read_next_header(in.get(), &item);
    if (result == ARCHIVE_EOF) return files;
    if (result != ARCHIVE_OK) refuse(file, "the archive is damaged");
    const char* path = archive_entry_pathname(item);
    const std::string name = path == nullptr ? "" : path;
    if (const std::string why = wrong_name(name); !why.empty()) refuse(file, why);
    if (archive_entry_filetype(item) != AE_IFREG || archive_entry_symlink(item) != nullptr || archive_entry_hardlink(item) != nullptr) refuse(file, "'" + name + "' is a link or no plain file");
    if (files.size() >= count_limit) refuse(file, "it holds more than 2000 files");
    if (files.count(name) != 0) refuse(file, "'" + name + "' is in it twice");
    files[name] = item_bytes(in.get(), file, name, total, packed);
  }
}

nlohmann::json manifest_of(const std::filesystem::path& file, const std::map<std::string, std::string>& files) {
  const auto at = files.find("manifest.json");
  if (at == files.end() || files.count("inspection.xml") == 0) refuse(file, "it has no manifest or no inspection");
  auto manifest = parse_foreign(at->second);
  const bool good = manifest.is_object() && manifest.contains("files") && manifest["files"].is_object() && manifest.value("photos", nlohmann::json::object()).is_object();
  if (!good || !manifest.value("format", nlohmann::json()).is_number_integer()) refuse(file, "its manifest can't be understood");
  if (manifest["format"] != 1) refuse(file, "it has another format than 1; update the program");
  return manifest;
}

}  // namespace

bool looks_like_bundle(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  char mark[2] = {};
  in.read(mark, 2);
  return mark[0] == 'P' && mark[1] == 'K';
}

void write_bundle(const std::filesystem::path& file, const Bundle& bundle) {
  const std::filesystem::path part = file.string() + ".part";
  try {
    write_file(part, "");
    std::filesystem::permissions(part, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    const Writer out(archive_write_new(), archive_write_free);
    archive_write_set_format_zip(out.get());
    if (archive_write_open_filename(out.get(), part.c_str()) != ARCHIVE_OK) throw FileError{file.string() + ": the bundle can't be written", "check the folder and its rights"};
    for (const auto& [name, bytes] : files_of(bundle)) write_item(out.get(), file, name, bytes);
    if (archive_write_close(out.get()) != ARCHIVE_OK) throw FileError{file.string() + ": the bundle can't be written", "check the space on the disk"};
    std::filesystem::rename(part, file);
  } catch (...) {
    std::error_code ignored;
    std::filesystem::remove(part, ignored);
    throw;
  }
}

Bundle read_bundle(const std::filesystem::path& file) {
  const auto files = read_items(file);
  const auto manifest = manifest_of(file, files);
  Bundle bundle;
  for (const auto& [name, bytes] : files) {
    if (name == "manifest.json") continue;
    const std::string hash = sha256(bytes);
    const auto listed = manifest["files"].find(name);
    if (listed == manifest["files"].end() || *listed != hash) refuse(file, "the hash of '" + name + "' is another than its manifest says");
    if (name == "inspection.xml") bundle.inspection = bytes;
    else if (name == "assessment.json") {
      if (!parse_foreign(bytes).is_object()) refuse(file, "its assessment can't be understood");
      bundle.assessment = bytes;
    }
    else if (name.substr(7) != hash) refuse(file, "the hash of '" + name + "' is another than its name says");
    else if (photo_type(bytes).empty()) refuse(file, "'" + name + "' is no photo");
    else bundle.bytes[hash] = bytes;
  }
  if (manifest["files"].size() + 1 != files.size()) refuse(file, "a file that its manifest names is missing");
  const nlohmann::json photos = manifest.value("photos", nlohmann::json::object());
  for (const auto& [hash, said] : photos.items()) {
    if (bundle.bytes.count(hash) == 0 || !said.is_object()) refuse(file, "its manifest speaks of a photo that isn't in it");
    for (const auto& [key, value] : said.items()) {
      if (value.is_string()) bundle.photos[hash][key] = value.get<std::string>();
    }
  }
  return bundle;
}

}  // namespace exworks
