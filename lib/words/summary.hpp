#pragma once
#include <string>
#include <vector>

#include "assess/summary.hpp"
#include "engine/tables/tables.hpp"

namespace exworks {

/// The most likely build: "Series MM two-door saloon, Home market, built Mar 1950 to Jun 1950".
std::string build_words(const Tables& tables, const Marginals& marginals);
std::string span_words(const DateSet& date);

/// "45 features were observed: 35 of the type fitted when new, 6 later changes, 4 uncertain."
/// How much it was altered: "little (63 %)", "much or wholesale (93 %)".
std::string alteration_words(const Tables& tables, const Assessment& assessment);
std::string counts_words(const Assessment& assessment);

/// What a group of changes is called: the known change's name, or the feature and what was noted.
std::string group_name(const Tables& tables, const Assessment& assessment, const ChangeGroup& group);

/// The names of features: "Starter and Dynamo".
std::string names_of(const Tables& tables, const std::vector<std::size_t>& features);

}  // namespace exworks
