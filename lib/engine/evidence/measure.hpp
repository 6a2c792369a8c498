#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// A length, volume, mass or tension in another unit of the same kind; nothing when the kinds differ. Factors: inch and
/// pound are exact by the international yard and pound agreement of 1959 (NIST SP 811).
std::optional<double> convert_unit(double amount, const std::string& from, const std::string& to);

/// The values whose measure lies within their tolerance of `amount` (in the feature's unit), nearest first.
std::vector<ValueIndex> matching_values(const FeatureInfo& feature, double amount);

/// The values whose measure, give or take their tolerance, meets `from` to `to` (in the feature's unit), in their order.
std::vector<ValueIndex> values_within(const FeatureInfo& feature, double from, double to);

}  // namespace exworks
