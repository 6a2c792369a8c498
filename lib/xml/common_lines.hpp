#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/source.hpp"
#include "xml/attributes.hpp"

/// What packs, requirements of law and schemes write in the same way.
namespace exworks {

/// A `source` line. A kind that is missing or none, and a published source without a publisher, or without year and URL, are reported.
Source read_source_line(const Element& element, Diagnostics& diagnostics);

/// An attribute of words that are vehicle_components() or one of `more`; others are reported.
std::vector<std::string> component_words(const Attributes& attributes, std::string_view name, const std::vector<std::string>& more);

}  // namespace exworks
