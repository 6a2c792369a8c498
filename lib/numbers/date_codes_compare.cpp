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

std::string words_for(Timing t, const CodeReading& r) {
  switch (t) {
    case Timing::after:
      return r.earliest_only ? "It did not exist yet when the vehicle was built, so it came later." : "Made after the vehicle left the works: a later part.";
    case Timing::supports: return "Made in the months before the vehicle, or while it was built: the part may be the first fitted.";
    case Timing::long_before: return "Made long before the vehicle: old stock, or a part from an older vehicle.";
    case Timing::ambiguous: return "The code can be read in several ways that say different things; all are kept.";
    case Timing::says_nothing: break;
  }
  return r.earliest_only && !r.candidates.empty() ? "It gives only an earliest date, which the vehicle is past: it says no more." : "It gives no date to compare.";
}

}  // namespace

CodeTiming compare_with_build(const CodeReading& reading, const BuildWindow& built, const TimingLimits& limits) {
  CodeTiming out;
  for (const CodeCandidate& c : reading.candidates) out.each.push_back(timing_of(c, reading.earliest_only, built, limits));
  if (!out.each.empty()) {
    const bool alike = std::all_of(out.each.begin(), out.each.end(), [&](Timing t) { return t == out.each.front(); });
    out.overall = alike ? out.each.front() : Timing::ambiguous;
  }
  out.words = words_for(out.overall, reading);
  if (!reading.earliest_only && !out.each.empty()) {
    out.words += " Limit: " + std::to_string(limits.months_before) + " months before the build still support it (judgement: common practice, no source; gaps differ by maker and part).";
  }
  if (reading.conflict) out.words += " Published readings of this code disagree.";
  return out;
}

}  // namespace exworks
