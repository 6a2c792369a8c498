#pragma once
#include <string>

/// Figures as they are said.
namespace exworks {

/// The verbal scale usually given as ENFSI 2015 (seven bands). Sources
/// differ on who owns an edge; here a band owns its lower edge. For ratios below 1 give 1/ratio.
std::string support_words(double ratio);
/// Is it in the scale's first band, "supports neither"?
bool supports_neither(double ratio);

/// Words for a probability, ICD 203 (2015), first row: "almost no chance" to "almost certain"; a band owns its lower edge. Outside
/// 1 % to 99 % the scale has no word; "" is returned.
std::string probability_words(double p);

/// A whole-number percentage; "> 99.9 %" and "< 0.1 %" instead of a false 100 or 0, one decimal near the ends.
std::string percent(double p);

/// "94 % (very likely)"
std::string odds_words(double p);

/// How many times likelier, either way: "4.3", "120", "over 10 000".
std::string ratio_words(double ratio);

/// At most so many decimals, without noughts at the end: "2.5".
std::string trimmed(double value, int decimals);

/// "1 hour", "2.5 hours"
std::string hours_words(double hours);

}  // namespace exworks
