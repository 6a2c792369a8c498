#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "law/requirements.hpp"
#include "xml/xml_file.hpp"

namespace exworks {

/// The requirements of law that lie beside packs. Nothing is read before a requirement is asked for, the rows of a market only when it is
/// one of the countries named or the requirement is in none of those, and no file twice.
class RequirementFiles {
 public:
  /// Folders that are not there are left out; of two that are the same, the second. `countries`: as the markets of the pack name them.
  RequirementFiles(std::vector<std::filesystem::path> folders, std::vector<std::string> countries);

  struct Found {
    const Requirements* market = nullptr;
    const Requirement* row = nullptr;
  };
  /// Nothing when no file has it. Mistakes of a file are reported when it is read; throws FileError when it can't be.
  std::optional<Found> find(const std::string& id, Diagnostics& diagnostics);

  /// The ids of all rows read, each once.
  std::vector<std::string> ids() const;

 private:
  struct File {
    std::optional<Element> root;  ///< until the rows are read
    Requirements market;
    bool named = false;
  };
  void open(Diagnostics& diagnostics);

  std::vector<std::filesystem::path> folders_;
  std::vector<File> files_;
  std::vector<std::string> countries_;
  bool opened_ = false;
};

}  // namespace exworks
