#include "base/text.hpp"
#include "numbers/date_codes.hpp"

namespace exworks {

namespace {

// Toughened Triplex from 1929; the code described runs to 1969.
constexpr int toughened_from = 1929;
constexpr int before_war_to = 1940;
constexpr int after_war_from = 1945;
constexpr int code_to = 1969;

/// The year digits that the dot can mean: the position of the letter, 0 for none.
std::vector<int> year_digits(const TriplexMark& mark, CodeReading& r) {
  const std::string word = mark.word == TriplexWord::toughened ? "TOUGHENED" : "LAMINATED";
  if (mark.right_of_word || mark.year_letter == '\0') return {0};
  std::vector<int> found;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (word[i] == mark.year_letter) found.push_back(static_cast<int>(i) + 1);
  }
  if (found.empty()) {
    r.faults.push_back({std::string("the word ") + word + " has no letter '" + mark.year_letter + "'", "look again which letter the dot stands under"});
  } else if (mark.occurrence >= 1 && static_cast<std::size_t>(mark.occurrence) <= found.size()) {
    return {found[static_cast<std::size_t>(mark.occurrence) - 1]};
  } else if (mark.occurrence != 0) {
    r.faults.push_back({std::string(word) + " has the letter '" + mark.year_letter + "' " + std::to_string(found.size()) + " times only", "count the letters again"});
    found.clear();
  } else if (found.size() > 1) {
    r.remarks.push_back(std::string("The letter '") + mark.year_letter + "' stands twice in " + word + ": say which has the dot.");
  }
  return found;
}

/// 1 to 4; 0 when no quarter is marked, nothing after a fault.
std::optional<int> quarter(const std::string& letters, CodeReading& r) {
  if (letters.empty()) return 0;
  static constexpr std::string_view marked = "TREX";
  const auto at = marked.find(letters[0]);
  if (at != std::string_view::npos) return static_cast<int>(at) + 1;
  r.faults.push_back({std::string("a dot over '") + letters[0] + "' marks no quarter", "look again: T is January to March, R April to June, E July to September, X October to December"});
  return std::nullopt;
}

CodeCandidate year_or_quarter(int year, int q) {
  const std::string y = std::to_string(year);
  if (q == 0) return {day_of(year, 1, 1), day_of(year, 12, 31), y, {}};
  static const std::vector<std::string> names{"January to March ", "April to June ", "July to September ", "October to December "};
  const int last = q * 3;
  return {day_of(year, last - 2, 1), day_of(year, last, last == 3 || last == 12 ? 31 : 30), names[static_cast<std::size_t>(q) - 1] + y, {}};
}

CodeCandidate month_in(int year, int month, std::string why) {
  const Month m = Month::of(year, month);
  const Day last{std::chrono::sys_days{day_of((m + 1).year(), (m + 1).month(), 1)} - std::chrono::days{1}};
  return {day_of(year, month, 1), last, to_words(m), std::move(why)};
}

}  // namespace

CodeReading read_triplex(const TriplexMark& mark) {
  CodeReading r;
  r.kind = "Triplex glass mark";
  r.source = "Triplex codes: bobine.nl (Jaguar), mgaguru.com, moreg.org.au (Morris Register)";
  r.remarks.push_back("It dates the glass, not the vehicle. The decade is not in the mark.");
  if (mark.quarter_letters.size() > 1) {
    r.certainty = CodeCertainty::no_rule;
    r.remarks.push_back("Several dots over TRIPLEX are a month code from about 1969, of which no full table was found: no date is read from it.");
    return r;
  }
  const auto digits = year_digits(mark, r);
  const auto q = quarter(mark.quarter_letters, r);
  if (digits.empty() || !q) return r;
  int first = mark.word == TriplexWord::toughened ? toughened_from : after_war_from;
  int last = code_to;
  if (mark.era == GlassEra::before_war) {
    last = before_war_to;
    if (mark.right_of_word) first = before_war_to;  // the pre-war article gives this dot to 1940
  }
  if (mark.era == GlassEra::after_war || mark.kite_mark) first = after_war_from;
  for (int year = first; year <= last; ++year) {
    for (const int digit : digits) {
      if (year % 10 == digit) r.candidates.push_back(year_or_quarter(year, *q));
    }
  }
  if (mark.kite_mark) r.remarks.push_back("The standard mark below the logo means 1945 or later.");
  if (r.candidates.empty()) {
    r.faults.push_back({"these marks belong to different times", "laminated glass with the word, and the standard mark, are from after the war; look again"});
  }
  return r;
}

CodeReading read_triplex_figure(int figure) {
  CodeReading r;
  r.kind = "Triplex figure, before the war";
  r.text = std::to_string(figure);
  r.source = "Dating of pre-war Triplex glass, moreg.org.au (Morris Register)";
  if (figure < 0 || figure > 9) {
    r.faults.push_back({"'" + r.text + "' is not one figure", "read the single figure under the broken circle, opposite the P"});
    return r;
  }
  r.candidates.push_back(year_or_quarter(1930 + figure, 0));
  r.remarks.push_back("Only for laminated glass without the word LAMINATED.");
  return r;
}

CodeReading read_numeral_glass(const NumeralMark& m, Years years) {
  CodeReading r;
  r.kind = "numeral and dots on glass";
  r.text = std::to_string(m.figure);
  r.source = "questions and answers on car glass, us.ok.com";
  r.certainty = CodeCertainty::copy;
  const int small = m.dots_after - m.large_after;
  if (m.figure < 0 || m.figure > 9) r.faults.push_back({"the numeral is one figure", "read it again"});
  if (m.large_after < 0 || small < 0) r.faults.push_back({"more large dots than dots", "count them again"});
  if ((m.dots_before > 0) == (m.dots_after > 0)) r.faults.push_back({"dots stand either before or after the numeral", "count them again, with a light from the side"});
  if (!r.faults.empty()) return r;
  const int dots = m.dots_before + m.dots_after;
  std::optional<int> month;
  if (dots <= 6) month = m.dots_before > 0 ? 7 - dots : 13 - dots;
  const bool rival = m.dots_before == 0 && small >= 1 && small <= 4 && m.large_after <= 3;
  for (int year = years.first; year <= years.last; ++year) {
    if (year % 10 != m.figure) continue;
    if (month) r.candidates.push_back(month_in(year, *month, "7 or 13 less the number of dots"));
    if (!rival) continue;
    if (m.large_after > 0) r.candidates.push_back(month_in(year, (small - 1) * 3 + m.large_after, "small dots the quarter, large dots the month in it"));
    else {
      CodeCandidate c = year_or_quarter(year, small);
      c.why = "small dots the quarter";
      r.candidates.push_back(c);
    }
  }
  r.conflict = month && rival;
  if (r.conflict) r.remarks.push_back("Two readings are published on the same site; both are kept. Note whether the dots have two sizes.");
  if (!month && !rival) r.faults.push_back({"neither reading has so many dots", "count them again"});
  r.remarks.push_back("The figure is the last of the year; the decade comes from elsewhere.");
  return r;
}

}  // namespace exworks
