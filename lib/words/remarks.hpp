#pragma once
#include <string>

#include "assess/case.hpp"

namespace exworks {

/// How well the vehicle fits the pack, in a sentence.
std::string fit_words(const Assessment& assessment);

std::string remark_words(const Inspection& inspection, const Remark& remark);

/// A paper that was weighed: "registration, dated May 1950", "claim by the seller, built 1950".
std::string paper_words(const Inspection& inspection, const WeighedPaper& paper);

/// How a feature was noted: its measure or the number that said it, and the inspector's own words.
std::string noted_words(const Case& of, const FeatureVerdict& feature);

/// What the inspection calls the vehicle, else its file.
std::string vehicle_name(const Inspection& inspection);

}  // namespace exworks
