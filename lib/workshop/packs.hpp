#pragma once
#include <exception>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"

/// The one loader of packs. Throws FileError when there is no such pack or a file can't be read, and Mistakes when the pack has errors.
namespace exworks {

/// Where packs are looked for.
struct Rules {
  std::vector<std::filesystem::path> folders;  ///< the first to be searched first
  std::filesystem::path installed;             ///< a pack that another extends may stand here too; "" for nowhere
};

/// "A and B", for a message.
std::string words(const Rules& rules);

/// The folder of the pack of this name among `rules`.
std::filesystem::path pack_folder(const std::string& family, const Rules& rules);

/// What a person means who may name a pack or its folder: with a slash it is a folder; else the pack of this name among `rules`, and only
/// where there is none, a folder. So a folder that happens to have a family's name is never taken for the family.
std::filesystem::path pack_or_folder(const std::string& named, const Rules& rules);

/// Nothing when there are errors; they, warnings and notes go to `diagnostics`.
std::optional<Pack> read_pack_among(const std::filesystem::path& folder, const Rules& rules, Diagnostics& diagnostics);

Pack load_pack(const std::filesystem::path& folder, const Rules& rules);

/// Its tables; a pack beyond the limits of the engine has errors too.
Tables tables_of(const Pack& pack);
Tables load_tables(const std::string& family, const Rules& rules);

/// Every pack among `rules` but those that another of them extends: what extends a pack says all that it says, and the two would only
/// share the odds.
std::vector<Tables> load_every_tables(const Rules& rules);

/// Each pack is read and compiled once, for several threads. One that can't be used says why each time that it is asked for.
class Packs {
 public:
  /// `load` makes the tables of a family; another than the usual one is for tests.
  using Load = std::function<Tables(const std::string& family, const Rules& rules)>;
  explicit Packs(Rules rules, Load load = load_tables) : rules_(std::move(rules)), load_(std::move(load)) {}
  /// The tables stay where they are as long as this object. While one pack is read, the others can be had.
  const Tables& get(const std::string& family);
  const Rules& rules() const { return rules_; }

 private:
  struct Slot {
    std::once_flag once;
    std::unique_ptr<const Tables> tables;
    std::exception_ptr why_not;
  };
  Slot& slot_of(const std::string& family);

  Rules rules_;
  Load load_;
  std::mutex mutex_;
  std::map<std::string, Slot> slots_;
};

}  // namespace exworks
