#include "numbers/date_codes.hpp"

#include <algorithm>

namespace exworks {

namespace {

Month month_of(const Day& day) { return Month::of(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month()))); }

Timing timing_of(const CodeCandidate& c, bool earliest_only, const BuildWindow& built, const TimingLimits& limits) {
  if (month_of(c.first) > built.last) return Timing::after;
  if (earliest_only) return Timing::says_nothing;
  if (month_of(c.last) < built.first - limits.months_before) return Timing::long_before;
  return Timing::supports;
}

}  // namespace

CodeTiming compare_with_build(const CodeReading& reading, const BuildWindow& built, const TimingLimits& limits) {
  CodeTiming out;
  for (const CodeCandidate& c : reading.candidates) out.each.push_back(timing_of(c, reading.earliest_only, built, limits));
  if (!out.each.empty()) {
    const bool alike = std::all_of(out.each.begin(), out.each.end(), [&](Timing t) { return t == out.each.front(); });
    out.overall = alike ? out.each.front() : Timing::ambiguous;
  }
  return out;
}

}  // namespace exworks
