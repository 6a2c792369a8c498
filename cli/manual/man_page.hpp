#pragma once
#include "tree.hpp"

namespace exworks::manual {

/// One page of section 1 in the macros of man(7); `parent` is the page above, or null.
std::string man_page(const Verb& verb, const Verb* parent, const std::string& version);

}  // namespace exworks::manual
