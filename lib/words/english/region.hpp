#pragma once
#include <string>
#include <string_view>

namespace exworks {

/// How dates, money and measures are written; the trade's terms are swapped in the tables (words/terms.hpp).
enum class Region { en_GB, en_US, en_AU };
std::string_view language_of(Region region);

/// "20 November 2026", or "November 20, 2026" for the United States.
std::string long_date(const std::string& iso, Region region);

/// "7 in (178 mm)" for a measure in a unit of length; other units are left as they are. The reader's own unit stands first.
std::string measure_words(double value, const std::string& unit, Region region);

}  // namespace exworks
