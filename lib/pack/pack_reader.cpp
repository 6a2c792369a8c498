#include "pack/pack_reader.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "pack/reader_context.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

/// 64-bit FNV-1a: tells two states of a pack apart; no protection against a forger.
class Fnv {
 public:
  void add(std::string_view text) {
    for (char c : text) hash_ = (hash_ ^ static_cast<unsigned char>(c)) * 1099511628211ull;
  }
  std::string hex() const {
    static constexpr std::string_view digits = "0123456789abcdef";
    std::string out;
    for (int shift = 60; shift >= 0; shift -= 4) out += digits[(hash_ >> shift) & 15u];
    return out;
  }

 private:
  std::uint64_t hash_ = 14695981039346656037ull;
};

/// The files of a pack, its parts sorted by element name, in the order of files and lines.
class PackFiles {
 public:
  PackFiles(fs::path folder, Pack& pack, Diagnostics& diagnostics) : folder_(std::move(folder)), pack_(pack), diagnostics_(diagnostics) {}

  void read() {
    std::vector<fs::path> files;
    std::error_code code;
    const fs::directory_iterator entries(folder_, code);
    if (code) throw FileError{folder_.string() + ": the folder can't be read", "check who may read it"};
    for (const auto& entry : entries) {
      if (entry.path().extension() == ".xml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end(), [](const fs::path& a, const fs::path& b) {
      return std::pair{a.filename() != "pack.xml", a} < std::pair{b.filename() != "pack.xml", b};
    });
    for (const fs::path& file : files) read_file_of_pack(file);
    pack_.digest = hash_.hex();
  }

  const std::vector<Element>& elements(std::string_view name) const {
    const auto at = std::find(order.begin(), order.end(), name);
    return by_name_[static_cast<std::size_t>(at - order.begin())];
  }

  /// Was everything that the files hold understood and kept?
  bool complete() const { return complete_; }

  /// What may stand at the top level, each before whatever refers to it.
  static constexpr std::array<std::string_view, 18> order{"source", "place", "caution", "term", "rates", "question", "recognise", "market", "plant", "generation",
                                                          "body", "variant", "volume", "assembly", "feature", "later", "number", "include"};

  /// How many of them a shared part may hold: the first.
  static constexpr std::size_t shared_kinds = 6;

 private:
  std::optional<Element> parse(const fs::path& file) {
    std::string text = read_file(file);
    hash_.add(text);
    return XmlFile::parse(std::move(text), file.lexically_normal().string(), diagnostics_);
  }

  bool good_format(const Attributes& a) {
    const std::string format = a.text("format");
    if (format == std::to_string(pack_format) || format.empty()) return true;
    diagnostics_.error(a.element().place("format"), "the file has format '" + format + "'; this program reads format " + std::to_string(pack_format),
                       "update the program, or use an edition of the pack written for it");
    return false;
  }

  void read_file_of_pack(const fs::path& file) {
    const bool before = complete_;
    complete_ = false;
    const auto root = parse(file);
    if (!root) return;
    if (root->name() != "pack") {
      diagnostics_.error(root->place(), "the root element is '" + root->name() + "'", "a file in a pack's folder begins with <pack format=\"1\" id=\"...\">");
      return;
    }
    const bool main = file.filename() == "pack.xml";
    const Attributes a = main ? Attributes(*root, diagnostics_, {"format", "id", "name", "version", "status"}) : Attributes(*root, diagnostics_, {"format", "id"});
    if (!good_format(a)) return;
    complete_ = before;
    const std::string id = a.id();
    if (main) {
      pack_.id = id;
      pack_.name = a.text("name");
      pack_.version = a.text("version");
      pack_.invented = a.choice("status", {"real", "invented"}, "real") == "invented";
      const std::string folder_name = fs::weakly_canonical(folder_).filename().string();
      if (!id.empty() && id != folder_name) diagnostics_.error(root->place("id"), "the pack is called '" + id + "' but its folder '" + folder_name + "'", "give both the same name");
    } else if (!pack_.id.empty() && !id.empty() && id != pack_.id) {
      diagnostics_.error(root->place("id"), "this file belongs to pack '" + id + "', pack.xml to '" + pack_.id + "'", "write the same id, or move the file");
    }
    sort_children(*root, file, false);
  }

  void sort_children(const Element& root, const fs::path& file, bool shared) {
    for (const Element& child : root.children()) {
      const auto at = std::find(order.begin(), order.end(), child.name());
      const auto index = static_cast<std::size_t>(at - order.begin());
      if (at == order.end() || (shared && index >= shared_kinds)) {
        const auto end = shared ? order.begin() + shared_kinds : order.end();
        unknown_element(child, std::vector<std::string>(order.begin(), end), diagnostics_);
        complete_ = false;
      } else if (child.name() == "include") {
        include(child, file);
      } else {
        by_name_[index].push_back(child);
      }
    }
  }

  void include(const Element& element, const fs::path& from) {
    const Attributes a(element, diagnostics_, {"href"});
    const std::string href = a.text("href");
    if (href.empty()) return;
    const fs::path target = (from.parent_path() / href).lexically_normal();
    if (!included_.insert(target.string()).second) return;  // two files of the pack may both ask for it
    const bool before = complete_;
    complete_ = false;
    if (std::error_code ignored; !fs::is_regular_file(target, ignored)) {
      diagnostics_.error(element.place("href"), "there is no file '" + target.string() + "' to include", "correct the path; it counts from this file's folder");
      return;
    }
    const auto root = parse(target);
    if (!root) return;
    if (root->name() != "shared") {
      diagnostics_.error(element.place("href"), "'" + target.string() + "' is no shared part", "its root must be <shared format=\"1\">");
      return;
    }
    const Attributes r(*root, diagnostics_, {"format"});
    if (!good_format(r)) return;
    complete_ = before;
    sort_children(*root, target, true);
  }

  fs::path folder_;
  Pack& pack_;
  Diagnostics& diagnostics_;
  Fnv hash_;
  std::set<std::string> included_;
  bool complete_ = true;
  std::array<std::vector<Element>, order.size()> by_name_;
};

}  // namespace

std::optional<Pack> read_pack(const fs::path& folder, Diagnostics& diagnostics) {
  const fs::path root = folder.filename().empty() ? folder.parent_path() : folder;
  std::error_code ignored;
  if (!fs::is_directory(root, ignored)) throw FileError{folder.string() + ": there is no such folder", "name the folder of a pack"};
  if (!fs::is_regular_file(root / "pack.xml", ignored)) throw FileError{(root / "pack.xml").string() + ": there is no such file", "a pack's folder holds a pack.xml"};
  Pack pack;
  pack.folder = root.string();
  PackFiles files(root, pack, diagnostics);
  files.read();
  // While a part is missing, whatever refers to it would only be reported wrongly.
  if (!files.complete()) return std::nullopt;

  ReaderContext context{pack, diagnostics};
  using Reader = void (*)(ReaderContext&, const Element&);
  static constexpr std::array<Reader, 17> readers{read_source, read_place, read_caution, read_term, read_rates, read_question, read_hallmark, read_market, read_plant, read_generation,
                                                  read_body, read_variant, read_volume, read_assembly, read_feature, read_assembly_change, read_number};
  for (std::size_t i = 0; i < readers.size(); ++i) {
    for (const Element& element : files.elements(PackFiles::order[i])) readers[i](context, element);
    if (PackFiles::order[i] != "variant") continue;
    context.axes_sound = !diagnostics.has_errors();
    if (pack.variants.empty()) break;  // every scope of the pack would be reported
  }
  if (pack.variants.empty() && !diagnostics.has_errors()) {
    diagnostics.error({(root / "pack.xml").string(), 1, 1}, "the pack has no variants", "write its markets, plants, generations, bodies and variants");
  }
  if (diagnostics.has_errors()) return std::nullopt;
  return pack;
}

std::vector<fs::path> pack_folders(const fs::path& rules) {
  std::error_code ignored;
  if (!fs::is_directory(rules, ignored)) throw FileError{rules.string() + ": there is no such folder", "name the folder that holds the packs, with --rules"};
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(rules)) {
    if (entry.is_directory() && fs::is_regular_file(entry.path() / "pack.xml")) out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace exworks
