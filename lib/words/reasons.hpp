#pragma once
#include <string>

#include "assess/assessment.hpp"
#include "engine/tables/tables.hpp"

/// The sentences of a feature's verdict.
namespace exworks {

/// What was noted, in the pack's words.
std::string observed_words(const Tables& tables, const FeatureVerdict& feature);
/// "Starter: key"
std::string feature_words(const Tables& tables, const FeatureVerdict& feature);

/// Why the verdict stands, in a sentence or two. `marginals`: the build that leads, and its dates.
std::string reason_words(const Tables& tables, const Marginals& marginals, const FeatureVerdict& feature);

/// The figure of an uncertain verdict, and which way it leans: "rather original, 84 %"; "silent".
std::string doubt_words(const FeatureVerdict& feature);

/// A likelihood ratio of 1 or more in words, capped at "strong": the rates are judgement, not measured.
std::string strength_words(double ratio);
/// The strength of the observation and what it is for: "moderate support for as built".
std::string strength_words(const FeatureVerdict& feature);
/// The same in a sentence, with the ratio.
std::string strength_sentence(const FeatureVerdict& feature);

/// What is shown of the very part: "right type; wear like the rest of the vehicle: weak support for its being the part fitted when new".
std::string part_words(const FeatureVerdict& feature);
/// Nothing but its type is known.
bool type_only(const FeatureVerdict& feature);

/// "It comes off again, about 4 hours.", or "" when nothing is known.
std::string going_back(const FeatureVerdict& feature);

}  // namespace exworks
