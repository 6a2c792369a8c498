#pragma once
#include <nlohmann/json_fwd.hpp>

#include "assess/case.hpp"

/// The one shape of an assessment for programs: of the command, of the guided inspection and of the job book. It is described by
/// rules/schema/assessment.schema.json (JSON Schema 2020-12), whose definitions have the names of the parts here.
namespace exworks {

/// An assessment, whole.
nlohmann::ordered_json json_report(const Case& of);

/// Its parts.
nlohmann::ordered_json json_feature(const Case& of, const FeatureVerdict& feature);
nlohmann::ordered_json json_number(const Tables& tables, const NumberVerdict& number);
nlohmann::ordered_json json_claim(const Case& of, const ClaimVerdict& claim);
nlohmann::ordered_json json_document(const Case& of, const DocumentVerdict& document);
nlohmann::ordered_json json_reading(const Case& of, const Reading& reading);
nlohmann::ordered_json json_date(const DateSet& date);
nlohmann::ordered_json json_score(const Score& score);
nlohmann::ordered_json json_fit(const Assessment& assessment);
nlohmann::ordered_json json_caution(const CautionInfo& caution);
/// Null when nothing of the pack explains it.
nlohmann::ordered_json json_later_change(const Tables& tables, const FeatureVerdict& feature);
nlohmann::ordered_json json_donor(const FeatureVerdict& feature);
/// The month since which the known change was possible.
nlohmann::ordered_json json_possible_from(const Tables& tables, const FeatureVerdict& feature);

}  // namespace exworks
