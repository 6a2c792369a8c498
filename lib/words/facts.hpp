#pragma once
#include <string>

#include "engine/tables/tables.hpp"

namespace exworks {

/// "standard", "one of several fitted", "an option", "fitted by dealers", "asked for by law (...; the pack itself is silent)"
std::string fitted_words(const FactInfo& fact);

/// " (Series MM) from Jan 1951", to follow a text; "" for all vehicles at all times.
std::string scope_and_period(const Axes& axes, const FactInfo& fact);

/// A fact as a line of its own: "low, beside the grille: standard, Series MM, from Jan 1951".
std::string fact_words(const Tables& tables, FeatureIndex feature, const FactInfo& fact);

}  // namespace exworks
