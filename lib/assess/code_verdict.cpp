#include "assess/code_verdict.hpp"

namespace exworks {

namespace {

/// The dot of a Triplex word is written as its letter, with 2 for the second of two: "E2"; "right" of the word; "none".
CodeReading read_triplex_code(const DateCode& code) {
  TriplexMark mark;
  mark.word = code.word == "laminated" ? TriplexWord::laminated : TriplexWord::toughened;
  if (code.dot == "right") {
    mark.right_of_word = true;
  } else if (code.dot != "none" && !code.dot.empty()) {
    mark.year_letter = code.dot[0];
    mark.occurrence = code.dot.size() > 1 ? code.dot[1] - '0' : 0;
  }
  mark.quarter_letters = code.quarter;
  mark.kite_mark = true;  // the vehicles of our packs are later than the mark, which came in 1945
  mark.era = GlassEra::after_war;
  return read_triplex(mark);
}

CodeReading read(const DateCode& code, Years years, Month inspected) {
  if (code.kind == "tyre") return read_tyre_code(code.text, code.triangle, day_of(inspected.year(), inspected.month(), 28));
  if (code.kind == "triplex") return read_triplex_code(code);
  if (code.kind == "us-casting") return read_ford_casting(code.text, years);
  if (code.kind == "belt-label") return read_belt_label(std::atoi(code.text.c_str()));
  if (code.kind == "sealed-beam") return read_sealed_beam(code.text);
  if (code.kind == "approval-mark") return read_approval_mark(code.text);
  if (code.kind == "gb-registration") return read_gb_mark(code.text);
  return read_foundry_clock();
}

}  // namespace

std::string word(Timing timing) {
  switch (timing) {
    case Timing::after: return "after";
    case Timing::supports: return "supports";
    case Timing::long_before: return "long before";
    case Timing::ambiguous: return "ambiguous";
    case Timing::says_nothing: return "says nothing";
  }
  return "says nothing";
}

CodeVerdict judge_code(const DateCode& code, const BuildWindow& built, Month inspected) {
  CodeVerdict out{code.kind, code.text, code.feature, code.note, {}, {}, {}, Timing::says_nothing, {}};
  // A year of one digit can be of any decade from a few years before the build to the inspection.
  const CodeReading reading = read(code, {built.first.year() - 5, inspected.year()}, inspected);
  out.source = reading.source;
  for (const CodeCandidate& c : reading.candidates) out.dates.push_back(c.words);
  for (const CodeFault& f : reading.faults) out.remark += (out.remark.empty() ? "" : " ") + f.what + "; " + f.remedy + ".";
  for (const std::string& r : reading.remarks) out.remark += (out.remark.empty() ? "" : " ") + r;
  if (code.kind == "gb-registration" || reading.candidates.empty()) return out;  // a mark dates the registration, not a part
  const CodeTiming timing = compare_with_build(reading, built);
  out.timing = timing.overall;
  out.words = timing.words;
  return out;
}

}  // namespace exworks
