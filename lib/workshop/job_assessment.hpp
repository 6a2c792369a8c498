#pragma once
#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <vector>

#include "assess/case.hpp"
#include "book/book.hpp"
#include "workshop/packs.hpp"

/// Assessing without printing: for batches, for the job book and for the guided inspection, from several threads.
namespace exworks {

/// What is wrong with one inspection or its pack, in words for its author, a line each; a batch goes on.
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
Assessed assess_xml(Packs& packs, const std::string& xml, const std::string& file, const std::string& family, const Settings& settings);

/// The pack's tables; throws Failed where `packs` throws what the author of a pack or the owner of a disk has to be told.
const Tables& tables_or_failed(Packs& packs, const std::string& family);

/// Settings of a batch: everything, or (quick) the verdicts without the fit check, the readings and what they hang on.
Settings batch_settings(bool quick);
nlohmann::ordered_json to_json(const Settings& settings);

/// As it is kept in the book, with the verdicts that search knows.
std::pair<StoredAssessment, std::vector<PartVerdict>> to_store(std::int64_t job, const std::string& inspection, const Assessed& assessed);
std::vector<PartVerdict> part_verdicts(const nlohmann::json& result);

}  // namespace exworks
