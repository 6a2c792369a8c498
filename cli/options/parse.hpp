#pragma once
#include <functional>
#include <optional>

namespace exworks::cli {

/// Set by the verb that was called; main runs it.
using Action = std::function<int()>;

/// Reads the command line into `action`. An exit code is returned when there is nothing to run: help was shown (standard output), or the
/// words were wrong, which is said on standard error.
std::optional<int> parse(int argc, char** argv, Action& action);

}  // namespace exworks::cli
