#include "words/english/region.hpp"

#include <algorithm>
#include <array>

#include "words/english/scales.hpp"

namespace exworks {

std::string_view language_of(Region region) { return region == Region::en_US ? "en-US" : region == Region::en_AU ? "en-AU" : "en-GB"; }

std::string long_date(const std::string& iso, Region region) {
  static constexpr std::array<const char*, 12> names{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};
  const auto digits = [&](std::size_t at, std::size_t n) { return std::all_of(iso.begin() + static_cast<std::ptrdiff_t>(at), iso.begin() + static_cast<std::ptrdiff_t>(at + n), [](char c) { return c >= '0' && c <= '9'; }); };
  if (iso.size() != 10 || !digits(0, 4) || !digits(5, 2) || !digits(8, 2)) return iso;
  const int month = std::stoi(iso.substr(5, 2)), day = std::stoi(iso.substr(8, 2));
  if (month < 1 || month > 12) return iso;
  const std::string name = names[static_cast<std::size_t>(month - 1)];
  return region == Region::en_US ? name + " " + std::to_string(day) + ", " + iso.substr(0, 4) : std::to_string(day) + " " + name + " " + iso.substr(0, 4);
}

std::string measure_words(double value, const std::string& unit, Region region) {
  if (unit != "mm" && unit != "in") return trimmed(value, 3) + (unit.empty() || unit == "none" ? "" : " " + unit);
  const double mm = unit == "mm" ? value : value * 25.4;
  const std::string metric = trimmed(mm, unit == "mm" ? 2 : mm < 20 ? 1 : 0) + " mm", inches = trimmed(mm / 25.4, unit == "in" ? 3 : mm < 20 ? 3 : 2) + " in";
  return region == Region::en_US ? inches + " (" + metric + ")" : metric + " (" + inches + ")";
}

}  // namespace exworks
