#pragma once
#include <string>
#include <vector>

#include "assess/code_verdict.hpp"

namespace exworks {

/// Every date that the rule allows, in the rule's words.
std::vector<std::string> code_dates(const CodeVerdict& code);
/// What is wrong with it, or what the rule leaves open.
std::string code_remark(const CodeVerdict& code);

/// How its date lies to the build, with the limit that was used; "" where it was not compared.
std::string timing_words(const CodeVerdict& code);

}  // namespace exworks
