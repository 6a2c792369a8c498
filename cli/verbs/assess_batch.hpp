#pragma once
#include "verbs/verbs.hpp"

namespace exworks::cli {

/// Assesses files, or jobs of a book, a line each. One that fails is told and the rest go on; bad_input when any failed.
int run_batch(const AssessArguments& arguments);

}  // namespace exworks::cli
