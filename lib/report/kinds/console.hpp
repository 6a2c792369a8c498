#pragma once
#include "assess/case.hpp"
#include "report/model/document.hpp"

namespace exworks {

/// What `assess` prints: everything in one page. `full`: the facts and figures behind every line, the original ones too.
Report console_report(const Case& of, bool full);

/// One number, part by part.
Report console_number(const Tables& tables, const NumberVerdict& number);

}  // namespace exworks
