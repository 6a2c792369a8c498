#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/render/timeline.hpp"

/// The drawing of one feature of a timeline, and what its page shares with it. Lengths in units of the drawing.
namespace exworks {

constexpr double timeline_width = 370;  ///< of one feature

std::string svg_number(double x);

/// Lines of at most so many letters; a longer word stands alone.
std::vector<std::string> wrapped(const std::string& text, std::size_t columns);

/// A <text> element; `kind` is head, place, name, market, label, date, how or year.
std::string text_at(double x, double y, const std::string& text, std::string_view kind);

/// The feature in pieces that fit in a column of an A3 page, each with its share of the bars; most features are one.
std::vector<TimelineFeature> in_columns(const Tables& tables, const TimelineFeature& feature);

/// One piece, to be put inside an <svg>; `height` becomes its size. `by_market`: the feature differs by market, so that each group of
/// bars is headed by its own. `part`: 0 for the first piece. `pattern`: the id of the hatching of silent bars.
std::string draw_feature(const Tables& tables, const Timeline& timeline, const TimelineFeature& feature, bool by_market, std::size_t part, const std::string& pattern, double& height);

}  // namespace exworks
