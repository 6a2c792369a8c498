#pragma once
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "law/requirement_files.hpp"
#include "pack/model/pack.hpp"
#include "xml/attributes.hpp"

/// Inside the pack reader: a pack's files, and those of the pack that it extends, as one row of elements by name.
namespace exworks {

class PackFiles {
 public:
  /// What may stand at the top level, each before whatever refers to it.
  static constexpr std::array<std::string_view, 21> order{"source", "place", "caution", "term", "rates", "question", "recognise", "market", "plant", "generation", "body", "share",
                                                          "variant", "volume", "assembly", "feature", "later", "conversion", "number", "add", "include"};

  /// `rules`: where a pack that is extended is looked for when it doesn't stand beside the one that extends it.
  PackFiles(std::vector<std::filesystem::path> rules, Diagnostics& diagnostics) : rules_(std::move(rules)), diagnostics_(diagnostics) {}

  /// Reads the folder and every pack below it; fills the head of `pack`, but for its digests. False when something could not be
  /// read or understood: whatever refers to it would only be reported wrongly.
  bool read(const std::filesystem::path& folder, Pack& pack);

  /// The digests of the pack and of those that it extends: SHA-256 over the SHA-256 of every file that can change an answer, in the order
  /// of reading. Files of law that the pack names a requirement of come after its own and the shared ones, then the digest of its base.
  void digest(RequirementFiles& law, Pack& pack);

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
    std::string files;                      ///< the digest of each, one a line
    std::vector<std::string> requirements;  ///< ids that it names
    bool complete = true;
  };

  static std::size_t index_of(std::string_view name);
  /// The pack in `folder` with those that it extends laid under it.
  ByName read_stack(const std::filesystem::path& folder, Pack& pack, bool& complete);
  void read_layer(const std::filesystem::path& folder, Pack& pack, Layer& layer);
  std::optional<Element> parse(const std::filesystem::path& file, Layer& layer);
  void name_requirements(const Element& feature, Layer& layer);
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
  std::map<std::string, std::string> included_;  ///< shared parts read, with their digests
  /// What a pack was read from: the top one first.
  struct Read {
    std::string files;
    std::vector<std::string> requirements;
  };
  std::vector<Read> read_;
  std::set<std::string> of_format_1_;
  std::set<std::string> visited_;  ///< folders of packs, so that no pack extends itself
  ByName top_;
};

}  // namespace exworks
