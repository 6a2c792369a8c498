#pragma once
#include <optional>

#include "base/spelling.hpp"
#include "numbers/date_codes.hpp"
#include "record/inspection.hpp"

namespace exworks {

template <>
struct Spelling<Timing> {
  static constexpr std::string_view words[] = {"after", "supports", "long before", "ambiguous", "says nothing"};
};

/// A date code on a part, read by published rule and held against the build.
struct CodeVerdict {
  std::size_t code = 0;               ///< index into Inspection::codes
  CodeReading reading;                ///< every date that the rule allows, and what is wrong with it; the words are the rule's
  Timing timing = Timing::says_nothing;
  bool compared = false;              ///< false: it gives no date of a part that could be held against the build
};

/// `built`: the date set of the assessment. `inspected`: no part was made after it; nothing where the day is not known.
CodeVerdict judge_code(const std::vector<DateCode>& codes, std::size_t code, const BuildWindow& built, const std::optional<Month>& inspected);

}  // namespace exworks
