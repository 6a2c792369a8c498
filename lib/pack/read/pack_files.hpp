#pragma once
#include <array>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "pack/model/pack.hpp"
#include "xml/attributes.hpp"

/// Inside the pack reader: a pack's files, and those of the pack that it extends, as one row of elements by name.
namespace exworks {

/// 64-bit FNV-1a: tells two states of a pack apart; no protection against a forger.
class Fnv {
 public:
  void add(std::string_view text);
  std::string hex() const;

 private:
  std::uint64_t hash_ = 14695981039346656037ull;
};

class PackFiles {
 public:
  /// What may stand at the top level, each before whatever refers to it.
  static constexpr std::array<std::string_view, 21> order{"source", "place", "caution", "term", "rates", "question", "recognise", "market", "plant", "generation", "body", "share",
                                                          "variant", "volume", "assembly", "feature", "later", "conversion", "number", "add", "include"};

  /// `rules`: where a pack that is extended is looked for when it doesn't stand beside the one that extends it.
  PackFiles(std::vector<std::filesystem::path> rules, Diagnostics& diagnostics) : rules_(std::move(rules)), diagnostics_(diagnostics) {}

  /// Reads the folder and every pack below it; fills the head of `pack` (id to digest). False when something could not be
  /// read or understood: whatever refers to it would only be reported wrongly.
  bool read(const std::filesystem::path& folder, Pack& pack);

  const std::vector<Element>& elements(std::string_view name) const { return top_[index_of(name)]; }
  /// The files that are written in format 1.
  const std::set<std::string>& of_format_1() const { return of_format_1_; }

 private:
  using ByName = std::array<std::vector<Element>, order.size()>;
  /// A pack's own files, without those of the pack it extends.
  struct Layer {
    ByName elements;
    std::optional<Element> root;  ///< of pack.xml
    std::string extends;
    Fnv hash;
    bool complete = true;
  };

  static std::size_t index_of(std::string_view name);
  /// The pack in `folder` with those that it extends laid under it.
  ByName read_stack(const std::filesystem::path& folder, Pack& pack, bool& complete);
  void read_layer(const std::filesystem::path& folder, Pack& pack, Layer& layer);
  std::optional<Element> parse(const std::filesystem::path& file, Layer& layer);
  bool good_format(const Attributes& attributes);
  void read_head(const Element& root, const std::filesystem::path& folder, const Attributes& attributes, Pack& pack, Layer& layer);
  void read_file_of_pack(const std::filesystem::path& file, const std::filesystem::path& folder, Pack& pack, Layer& layer);
  void sort_children(const Element& root, const std::filesystem::path& file, bool shared, Layer& layer);
  void include(const Element& element, const std::filesystem::path& from, Layer& layer);
  std::optional<std::filesystem::path> base_folder(const std::filesystem::path& folder, const Layer& layer);
  void lay_over(ByName& below, ByName own, const std::string& base);
  void override_one(std::vector<Element>& below, const Element& own, const std::string& base);
  void refuse_lonely(ByName& own);

  std::vector<std::filesystem::path> rules_;
  Diagnostics& diagnostics_;
  std::set<std::string> included_, of_format_1_;
  std::set<std::string> visited_;  ///< folders of packs, so that no pack extends itself
  ByName top_;
};

}  // namespace exworks
