#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "engine/tables/tables.hpp"

namespace exworks {

/// Which vehicles a question is about; nothing set: all of the family.
struct AskedVehicles {
  std::optional<int> year;
  std::optional<std::size_t> market, variant;
};

/// What was right for one feature on those vehicles, when, and by which source.
struct FeatureExplained {
  FeatureIndex feature;
  AskedVehicles asked;
  double vehicles = 0;                          ///< share of the family that is asked about; 0: none was built
  std::vector<double> share;                    ///< [value, "other" last]: of those for which the pack speaks
  double silent = 0, without = 0;               ///< share of those asked about: the pack is silent; they have no such feature
  std::vector<std::size_t> facts;               ///< that bind on some of them, in the pack's order
  std::vector<const NamedChange*> changes;      ///< later changes and conversions that are known on some of them; of the tables
};

FeatureExplained explain_feature(const Tables& tables, FeatureIndex feature, const AskedVehicles& asked);

std::string text_explained(const Tables& tables, const FeatureExplained& explained, bool colour);
nlohmann::ordered_json json_explained(const Tables& tables, const FeatureExplained& explained);

}  // namespace exworks
