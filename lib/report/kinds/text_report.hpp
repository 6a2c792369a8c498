#pragma once
#include <string>

#include "assess/case.hpp"

namespace exworks {

/// The assessment for a terminal, 80 columns. `full`: the facts and figures behind every line, the original ones too.
std::string text_report(const Case& of, bool colour, bool full);

/// One number, part by part.
std::string text_number(const Tables& tables, const NumberVerdict& number, bool colour);

}  // namespace exworks
