#pragma once
#include <cstdint>

#include "engine/tables/tables.hpp"

/// When a serial number was issued, between the points of a range that are known. lib/handbook/papers-and-numbers.md, "serial".
/// Points are months counted as real numbers: month m is [m, m + 1).
namespace exworks {

/// The point of a serial, and how far the numbers may have wandered from an even pace there: both in months.
struct SerialPoint {
  double at = 0, sd = 0;
};

/// The serials `first` to `last`, both included.
struct Serials {
  std::int64_t first = 0, last = 0;

  double count() const { return static_cast<double>(last - first + 1); }
  auto operator<=>(const Serials&) const = default;
};

double months_of(const RangeInfo& range);
SerialPoint serial_point(const RangeInfo& range, std::int64_t serial);
SerialPoint point_of(const RangeInfo& range, double at);
/// P(issued in month m): mostly by the wandering, a tenth anywhere within a year.
double issued_in(const SerialPoint& point, Month m);
/// Months either side of a range beyond which it issued nothing.
int months_around(const RangeInfo& range);
/// How many of the range's numbers were issued in month m.
double numbers_in(const RangeInfo& range, Month m);
/// How many of those among `serials` were.
double numbers_in(const RangeInfo& range, Serials serials, Month m);

}  // namespace exworks
