#pragma once
#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace exworks {

inline constexpr double log_zero = -std::numeric_limits<double>::infinity();

/// log(sum(exp(x))) without under- or overflow; log_zero for an empty or all-zero list.
inline double log_sum(std::span<const double> logs) {
  double top = log_zero;
  for (double x : logs) top = std::max(top, x);
  if (top == log_zero) return log_zero;
  double sum = 0;
  for (double x : logs) sum += std::exp(x - top);
  return top + std::log(sum);
}

}  // namespace exworks
