#pragma once
#include <string>

#include "report/render/timeline.hpp"

namespace exworks {

/// One drawing of all the features, in columns 390 units wide: 1 column for a phone, 0 for as many as suit a sheet of A3 on its side.
std::string svg_timeline(const Tables& tables, const Timeline& timeline, int columns);

/// A page of the same drawings that flows: one column on a phone, several on a screen, A3 on its side when printed.
std::string html_timeline(const Tables& tables, const Timeline& timeline);

}  // namespace exworks
