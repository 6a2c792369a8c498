#pragma once
#include <map>
#include <memory>
#include <mutex>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "command.hpp"
#include "book/book.hpp"
#include "assess/case.hpp"

/// Assessing without printing: for batches and for the job book, from several threads.
namespace exworks::cli {

/// Each pack is read and compiled once.
class PackCache {
 public:
  explicit PackCache(Rules rules) : rules_(std::move(rules)) {}
  /// Throws Failed when there is no such pack or it has mistakes.
  const Tables& get(const std::string& family);

 private:
  struct Slot {
    std::unique_ptr<Tables> tables;
    std::string why;
  };
  Rules rules_;
  std::mutex mutex_;
  std::map<std::string, Slot> slots_;
};

/// What is wrong with one inspection, in words for its author; a batch goes on.
struct Failed {
  std::string why;
};

struct Assessed {
  const Tables* tables = nullptr;
  Inspection inspection;
  Assessment assessment;

  Case of() const { return {*tables, inspection, assessment}; }
};

/// Throws Failed. `family` replaces the inspection's own unless it is "".
Assessed assess_xml(PackCache& packs, const std::string& xml, const std::string& file, const std::string& family, const Settings& settings);

/// Settings of a batch: everything, or (quick) the verdicts without the fit check, the readings and what they hang on.
Settings batch_settings(bool quick);
nlohmann::ordered_json to_json(const Settings& settings);

/// As it is kept in the book, with the verdicts that search knows.
std::pair<StoredAssessment, std::vector<PartVerdict>> to_store(std::int64_t job, const std::string& inspection, const Assessed& assessed);
std::vector<PartVerdict> part_verdicts(const nlohmann::json& result);

}  // namespace exworks::cli
