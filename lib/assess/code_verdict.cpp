#include "assess/code_verdict.hpp"

#include <cstdlib>

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

/// A year of one figure can be of any decade from a few years before the build to the inspection. Where that day is not known, one turn
/// of the figure after the build is enough to show that the part can be a later one.
Years possible_years(const BuildWindow& built, const std::optional<Month>& inspected) {
  return {built.first.year() - 5, inspected ? inspected->year() : built.last.year() + 10};
}

CodeReading read(const DateCode& code, const BuildWindow& built, const std::optional<Month>& inspected) {
  if (code.kind == "tyre") return read_tyre_code(code.text, code.triangle, inspected ? std::optional(day_of(inspected->year(), inspected->month(), 28)) : std::nullopt);
  if (code.kind == "triplex") return read_triplex_code(code);
  if (code.kind == "us-casting") return read_ford_casting(code.text, possible_years(built, inspected));
  if (code.kind == "belt-label") return read_belt_label(std::atoi(code.text.c_str()));
  if (code.kind == "sealed-beam") return read_sealed_beam(code.text);
  if (code.kind == "approval-mark") return read_approval_mark(code.text);
  if (code.kind == "gb-registration") return read_gb_mark(code.text);
  return read_foundry_clock();
}

}  // namespace

CodeVerdict judge_code(const std::vector<DateCode>& codes, std::size_t code, const BuildWindow& built, const std::optional<Month>& inspected) {
  CodeVerdict out;
  out.code = code;
  out.reading = read(codes[code], built, inspected);
  // A registration mark dates the registration, not a part.
  out.compared = codes[code].kind != "gb-registration" && !out.reading.candidates.empty();
  if (out.compared) out.timing = compare_with_build(out.reading, built).overall;
  return out;
}

}  // namespace exworks
