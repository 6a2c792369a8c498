#pragma once
#include <string>

#include "base/diagnostic.hpp"

namespace exworks {

/// Names the first tab of a file that its authors share. A tab is one column to us and several in most editors, so that the
/// place in a message would seem wrong.
void warn_of_tabs(const std::string& text, const std::string& file, Diagnostics& diagnostics);

}  // namespace exworks
