#include "words/codes.hpp"

namespace exworks {

namespace {

std::string lies(Timing t, const CodeReading& r) {
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

std::vector<std::string> code_dates(const CodeVerdict& code) {
  std::vector<std::string> out;
  for (const CodeCandidate& c : code.reading.candidates) out.push_back(c.words);
  return out;
}

std::string code_remark(const CodeVerdict& code) {
  std::string out;
  for (const CodeFault& f : code.reading.faults) out += (out.empty() ? "" : " ") + f.what + "; " + f.remedy + ".";
  for (const std::string& r : code.reading.remarks) out += (out.empty() ? "" : " ") + r;
  return out;
}

std::string timing_words(const CodeVerdict& code) {
  if (!code.compared) return {};
  std::string out = lies(code.timing, code.reading);
  if (!code.reading.earliest_only) {
    out += " Limit: " + std::to_string(TimingLimits{}.months_before) + " months before the build still support it (judgement: common practice, no source; gaps differ by maker and part).";
  }
  return code.reading.conflict ? out + " Published readings of this code disagree." : out;
}

}  // namespace exworks
