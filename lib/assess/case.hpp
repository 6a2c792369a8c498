#pragma once
#include "assess/assessment.hpp"

namespace exworks {

/// An assessment with what its indices are into: all that words need.
struct Case {
  const Tables& tables;
  const Inspection& inspection;
  const Assessment& assessment;
};

}  // namespace exworks
