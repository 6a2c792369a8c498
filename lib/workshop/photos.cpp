#include "workshop/photos.hpp"

#include <filesystem>
#include <string_view>

#include "base/file.hpp"
#include "book/photos.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t most_bytes = 12u << 20u;

std::string base64(std::string_view bytes) {
  static constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    unsigned word = 0;
    for (std::size_t k = 0; k < 3; ++k) word = word << 8u | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k) out += i + k > bytes.size() ? '=' : digits[word >> (18u - 6u * static_cast<unsigned>(k)) & 63u];
  }
  return out;
}

/// The kind of picture by its first bytes, whatever its name says; "" for anything else.
std::string picture_type(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF")) return "image/jpeg";
  if (bytes.starts_with(std::string_view("\x89PNG\r\n\x1a\n", 8))) return "image/png";
  return {};
}

bool stays_inside(const fs::path& name) {
  if (name.is_absolute()) return false;
  for (const fs::path& part : name) {
    if (part == "..") return false;
  }
  return true;
}

std::string load(const std::string& name, const fs::path& path, Diagnostics& diagnostics) {
  const auto leave_out = [&](const std::string& why, const std::string& remedy) {
    diagnostics.warning({}, "the photo '" + name + "' was left out: " + why, remedy);
    return std::string();
  };
  std::error_code error;
  if (!fs::is_regular_file(path, error)) return leave_out("there is no such file in " + path.parent_path().string(), "put it there");
  if (fs::file_size(path, error) > most_bytes || error) return leave_out("it is over 12 MiB", "make it smaller");
  const std::string bytes = read_file(path);
  const std::string type = picture_type(bytes);
  return type.empty() ? leave_out("it is neither JPEG nor PNG", "convert it") : "data:" + type + ";base64," + base64(bytes);
}

std::string field(const Entry& e, const std::string& name) {
  const auto at = e.fields->find(name);
  return at == e.fields->end() ? "" : at->second;
}

}  // namespace

std::map<std::string, ReportPhoto> load_photos(const Inspection& inspection, const std::string& file, Diagnostics& diagnostics) {
  fs::path folder = fs::path(file).parent_path();
  if (folder.empty()) folder = ".";
  std::map<std::string, ReportPhoto> out;
  const auto add = [&](const std::string& name) {
    if (name.empty() || out.contains(name)) return;
    ReportPhoto photo;
    if (stays_inside(name)) photo.data_uri = load(name, folder / name, diagnostics);
    else diagnostics.warning({}, "the photo '" + name + "' was left out: it lies outside the inspection's folder", "put it beside the inspection");
    out[name] = std::move(photo);
  };
  for (const NumberSeen& n : inspection.numbers) add(n.photo);
  for (const Observation& o : inspection.observations) add(o.photo);
  return out;
}

std::map<std::string, ReportPhoto> load_photos(Book& book, std::int64_t job, Diagnostics& diagnostics) {
  const PhotoFolder folder(book.photo_folder());
  std::map<std::string, ReportPhoto> out;
  for (const Entry& e : book.entries(job)) {
    if (e.kind != "photo" || !e.fields) continue;
    std::string name = field(e, "file");
    // Two cameras may have given the same name.
    if (name.empty() || out.contains(name)) name += (name.empty() ? "" : ", ") + e.name.substr(0, 8);
    out[name] = {load(name, folder.file(e.name), diagnostics), field(e, "feature"), field(e, "note"), field(e, "taken")};
  }
  return out;
}

}  // namespace exworks
