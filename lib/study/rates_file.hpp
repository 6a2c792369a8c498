#pragma once
#include <string>

#include "study/learn.hpp"

namespace exworks {

/// The rates file, format 1: JSON with the counts behind each rate.
std::string write_rates(const LearnedRates& rates);

/// Mistakes are reported at `file`; what is returned then is empty.
LearnedRates read_rates(const std::string& text, const std::string& file, Diagnostics& diagnostics);

}  // namespace exworks
