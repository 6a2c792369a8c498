#pragma once
#include <string>

namespace exworks {

/// The verbal scale usually given as ENFSI 2015 (seven bands; shared/research/standards.md 4.1 says how it was read). Sources
/// differ on who owns an edge; here a band owns its lower edge. For ratios below 1 give 1/ratio.
std::string support_words(double ratio);

/// Words for a probability, ICD 203 (2015), first row: "almost no chance" to "almost certain"; a band owns its lower edge. Outside
/// 1 % to 99 % the scale has no word; "" is returned.
std::string probability_words(double p);

/// A whole-number percentage; "> 99.9 %" and "< 0.1 %" instead of a false 100 or 0, one decimal near the ends.
std::string percent(double p);

}  // namespace exworks
