#pragma once
#include "report/model/document.hpp"
#include "report/model/report.hpp"

namespace exworks {

struct SheetOptions {
  std::string paper = "A4", date, program;
  Region region = Region::en_GB;
  double minutes = 0;  ///< above 0: a short look on one side of paper, without how to recognise things; 0: the full sheet
};

/// An inspection sheet for clipboard and pencil, by where one stands. `next` holds what is worth looking at, best first; the full
/// sheet lists after it, place by place, whatever else is not in `inspection`. The numbers come first, to be copied as they are stamped.
Report inspection_sheet(const Tables& tables, const Inspection& inspection, const NextChecks& next, const SheetOptions& options);

}  // namespace exworks
