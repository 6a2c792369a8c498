#include "engine/evidence/serial.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {

constexpr double least_sd = 0.7;     // months: a month's numbers are not issued in order. Judgement
constexpr double wandering = 0.35;   // of a bridge between two known points, per root month. Judgement
constexpr double in_tails = 0.1;     // of serials: issued anywhere within `tail` months. Judgement
constexpr double tail = 12;

double below(double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }  // the normal distribution

}  // namespace

double months_of(const RangeInfo& range) { return range.to.last - range.from.first + 1; }

SerialPoint point_of(const RangeInfo& range, double at) {
  const double first = range.from.first.index, months = months_of(range);
  const double bridge = wandering * std::sqrt(std::max(0.0, (at - first) * (first + months - at) / months));
  return {at, std::max({least_sd, range.spread / std::sqrt(3.0), bridge})};
}

SerialPoint serial_point(const RangeInfo& range, std::int64_t serial) {
  const double share = (static_cast<double>(serial - range.first) + 0.5) / static_cast<double>(range.last - range.first + 1);
  return point_of(range, range.from.first.index + months_of(range) * share);
}

double issued_in(const SerialPoint& point, Month m) {
  const double from = m.index, to = m.index + 1;
  const double within = std::max(0.0, std::min(to, point.at + tail) - std::max(from, point.at - tail));
  return (1 - in_tails) * (below((to - point.at) / point.sd) - below((from - point.at) / point.sd)) + in_tails * within / (2 * tail);
}

int months_around(const RangeInfo& range) {
  constexpr double beyond = 8;  // standard deviations: what is left is no figure of double precision
  const double widest = point_of(range, range.from.first.index + months_of(range) / 2).sd;
  return static_cast<int>(std::ceil(std::max(tail, beyond * widest))) + 1;
}

double numbers_in(const RangeInfo& range, Month m) { return numbers_in(range, {range.first, range.last}, m); }

double numbers_in(const RangeInfo& range, Serials serials, Month m) {
  const Serials within{std::max(serials.first, range.first), std::min(serials.last, range.last)};
  if (within.last < within.first) return 0;
  if (within.last == within.first) return issued_in(serial_point(range, within.first), m);
  const double size = static_cast<double>(range.last - range.first + 1), span = months_of(range) * within.count() / size;
  const double first = range.from.first.index + months_of(range) * static_cast<double>(within.first - range.first) / size;
  const auto pieces = std::max(1, static_cast<int>(std::ceil(span - 1e-9)));  // of a month at most, each at its middle
  double sum = 0;
  for (int i = 0; i < pieces; ++i) sum += issued_in(point_of(range, first + span * (i + 0.5) / pieces), m);
  return within.count() / pieces * sum;
}

}  // namespace exworks
