#pragma once
#include <string>
#include <vector>

#include "assess/number_verdict.hpp"

/// The sentences of a number's verdict.
namespace exworks {

/// The name of the form that reads it; "" when none does.
std::string form_name(const Tables& tables, const NumberVerdict& number);

struct PartWords {
  std::string name, text, means;  ///< means: "" where the part has no codes
};
/// Part by part; literals, and parts that were left out and mean nothing, are passed over.
std::vector<PartWords> number_parts(const Tables& tables, const NumberVerdict& number);
/// All parts in a row: "Model AC2: Series 2; Serial 31205".
std::string parts_in_a_row(const Tables& tables, const NumberVerdict& number);

/// "'O' read as the digit 0"
std::string slip_words(const NumberSlip& slip);
std::vector<std::string> slips_of(const NumberVerdict& number);

/// "agrees with the rest", "not consistent with the rest", "cannot be told", "not read by any known form"
std::string agreement_words(const NumberVerdict& number);

/// What to make of it: why no form reads it, why it gives no window, whom to ask. "" when there is nothing to say.
std::string number_note(const Tables& tables, const NumberVerdict& number);
/// The same after what the number by itself says of the build.
std::string number_line(const Tables& tables, const NumberVerdict& number);

/// "at '12' it wants the end of the number"; "at its end it wants ..."
std::string failure_words(const std::string& text, const NumberFailure& failure);

}  // namespace exworks
