#pragma once
#include "command.hpp"

namespace exworks::cli {

/// The whole command line: every verb with its options, help and examples. The manual and the completions are made from it too.
void describe(CLI::App& app, Action& action);

}  // namespace exworks::cli
