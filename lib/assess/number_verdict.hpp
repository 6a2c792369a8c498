#pragma once
#include "assess/assessment.hpp"

namespace exworks {

/// What a number means part by part, and whether it agrees with everything else. Never says more than "not consistent with".
NumberVerdict judge_number(const VerdictInputs& inputs, const NumberRead& read);

/// The parts of a number in words, and the build window that it gives by itself. `says`: of an identity number, when it is known.
NumberVerdict describe_number(const Tables& tables, const NumberRead& read, const IdentityLikelihood* says = nullptr);

}  // namespace exworks
