#pragma once
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// What a pack owes its readers before it is given to others, beyond being without mistakes. Each finding is a warning. Of a
/// pack that extends another, its own lines alone are judged.
/// `cited_elsewhere`: sources that the reference vehicles name.
void check_for_publishing(const Pack& pack, const std::vector<std::string>& cited_elsewhere, Diagnostics& diagnostics);

/// A new edition that says something else needs a version of its own.
void check_version(const Pack& pack, const Pack& since, Diagnostics& diagnostics);

}  // namespace exworks
