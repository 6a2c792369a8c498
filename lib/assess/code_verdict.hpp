#pragma once
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"
#include "numbers/date_codes.hpp"
#include "record/inspection.hpp"

namespace exworks {

/// A date code on a part, read by published rule and held against the build.
struct CodeVerdict {
  std::string kind, text, feature, note;
  std::vector<std::string> dates;    ///< every date that the rule allows, in words
  std::string remark;                ///< what is wrong with it, or what the rule leaves open
  std::string source;                ///< of the rule
  Timing timing = Timing::says_nothing;
  std::string words;                 ///< how it lies to the build
};

/// `built`: the date set of the assessment. `inspected`: no part was made after it.
CodeVerdict judge_code(const DateCode& code, const BuildWindow& built, Month inspected);

/// "after", "supports", "long before", "ambiguous", "says nothing"
std::string word(Timing timing);

}  // namespace exworks
