#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "numbers/date_codes.hpp"
#include "numbers/grammar.hpp"

namespace exworks {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return c >= 'A' && c <= 'Z'; }

/// "AAA9A": the mark with runs of letters as A and runs of digits as 9, three at most.
std::string shape(const std::string& text) {
  std::string out;
  for (const char c : text) out += is_digit(c) ? '9' : is_letter(c) ? 'A' : '?';
  return out;
}

constexpr std::string_view year_letters = "ABCDEFGHJKLMNPRSTVWXY";  // I, O, Q, U and Z are not used

/// First and last day of issue, worked out from the change-over rule that the sources give.
std::pair<Day, Day> suffix_window(std::size_t i) {
  if (i < 4) return {day_of(1963 + static_cast<int>(i), 1, 1), day_of(1963 + static_cast<int>(i), 12, 31)};
  if (i == 4) return {day_of(1967, 1, 1), day_of(1967, 7, 31)};
  const int year = 1967 + static_cast<int>(i) - 5;
  return {day_of(year, 8, 1), day_of(year + 1, 7, 31)};
}

std::pair<Day, Day> prefix_window(std::size_t i) {
  static const std::array<std::pair<Day, Day>, 6> half_years{{{day_of(1998, 8, 1), day_of(1999, 2, 28)}, {day_of(1999, 3, 1), day_of(1999, 8, 31)},
                                                             {day_of(1999, 9, 1), day_of(2000, 2, 29)}, {day_of(2000, 3, 1), day_of(2000, 8, 31)},
                                                             {day_of(2000, 9, 1), day_of(2001, 2, 28)}, {day_of(2001, 3, 1), day_of(2001, 8, 31)}}};
  if (i >= 15) return half_years[i - 15];
  const int year = 1983 + static_cast<int>(i);
  return {day_of(year, 8, 1), day_of(year + 1, 7, 31)};
}

void age_letter(CodeReading& r, char letter, bool suffix) {
  const std::string what = std::string("year ") + (suffix ? "suffix " : "prefix ") + letter;
  const auto i = year_letters.find(letter);
  if (i == std::string_view::npos) {
    if (letter == 'Q' && !suffix) {
      r.certainty = CodeCertainty::no_rule;
      r.remarks.push_back("A Q mark, given from 1983, says nothing about the age: the vehicle's age or identity could not be shown.");
    } else {
      r.faults.push_back({std::string("'") + letter + "' is no year letter: I, O, Q, U and Z were not used", "read the mark again"});
    }
    return;
  }
  const auto [first, last] = suffix ? suffix_window(i) : prefix_window(i);
  r.candidates.push_back({first, last, what + ", issued " + to_iso(first) + " to " + to_iso(last), {}});
  if (suffix && i < 2) r.remarks.push_back("In 1963 and 1964 only some offices used the suffix: a mark without one proves nothing.");
  r.source = suffix ? "philseed.com, United Kingdom licence plates" : "Performance Car Guide, Prefix number plates; ukoffroad.com, Registration plates by year";
  r.certainty = suffix ? CodeCertainty::copy : CodeCertainty::published;
}

void current_format(CodeReading& r, int figures) {
  r.source = "encyclopaedia, Vehicle registration plates of the United Kingdom; nocto.com, 22 August 2001";
  if (figures >= 2 && figures <= 50) {
    const Day first = day_of(2000 + figures, 3, 1), last = day_of(2000 + figures, 8, 31);
    r.candidates.push_back({first, last, "issued " + to_iso(first) + " to " + to_iso(last), {}});
  } else if (figures >= 51) {
    const int year = 1950 + figures;
    const Day first = day_of(year, 9, 1);
    const Day last{std::chrono::sys_days{day_of(year + 1, 3, 1)} - std::chrono::days{1}};
    r.candidates.push_back({first, last, "issued " + to_iso(first) + " to " + to_iso(last), {}});
  } else {
    r.faults.push_back({"the figures are no half-year: 02 to 50 are spring, 51 and up autumn", "read the mark again"});
  }
}

void dateless(CodeReading& r, const std::string& s) {
  r.source = "astraturbo.co.uk, Vehicle registration plates; privateplate.net, Brief history of number plates; ukoffroad.com, Registration plates by year";
  const auto digits = std::count(s.begin(), s.end(), '9');
  const auto letters = static_cast<long>(s.size()) - digits;
  const bool reversed = s.front() == '9';
  int year = 1904;
  if (letters == 3 && digits <= 3) year = reversed ? 1953 : 1932;
  if (year != 1904) {
    r.conflict = true;
    r.remarks.push_back(reversed ? "Another list says the mid-1950s; it began office by office." : "Another list says 1934; it began office by office.");
  }
  r.candidates.push_back({day_of(year, 1, 1), day_of(year, 12, 31), "not before " + std::to_string(year), {}});
}

}  // namespace

CodeReading read_gb_mark(std::string_view mark) {
  CodeReading r;
  r.kind = "registration mark, Great Britain";
  r.text = strip(mark).text;
  r.earliest_only = true;
  const std::string s = shape(r.text);
  const auto digits = std::count(s.begin(), s.end(), '9');
  const bool one_run = digits >= 1 && digits <= 4 && s.find('?') == std::string::npos && s.rfind('9') - s.find('9') + 1 == static_cast<std::size_t>(digits);
  const std::size_t before = one_run ? s.find('9') : 0, after = one_run ? s.size() - before - static_cast<std::size_t>(digits) : 0;
  if (!one_run || before + after == 0 || before > 3 || after > 3) {
    r.faults.push_back({"'" + std::string(mark) + "' is no form of British mark", "read it again; marks of other countries and of the forces have forms of their own"});
    return r;
  }
  if (before == 3 && after == 1 && digits <= 3) age_letter(r, r.text.back(), true);
  else if (before == 1 && after == 3 && digits <= 3) age_letter(r, r.text.front(), false);
  else if (before == 2 && after == 3 && digits == 2) current_format(r, (r.text[2] - '0') * 10 + (r.text[3] - '0'));
  else if (before == 0 || after == 0) dateless(r, s);
  else r.faults.push_back({"'" + std::string(mark) + "' is no form of British mark", "read it again"});
  if (!r.candidates.empty()) {
    r.remarks.push_back("This is only an earliest date of registration: a mark may not make a vehicle look newer than it is, but an older mark can be put on a newer vehicle.");
    r.remarks.push_back("Registration can follow the build by months, and by years for an import.");
  }
  return r;
}

CodeReading read_approval_mark(std::string_view rule) {
  CodeReading r;
  r.kind = "approval mark";
  r.text = upper(rule);
  r.earliest_only = true;
  const auto since = [&](int year, int month, int day, const char* words, const char* source) {
    const Day d = day_of(year, month, day);
    r.candidates.push_back({d, d, std::string(words) + ", not before " + to_iso(d), {}});
    r.source = source;
  };
  const char* type_approval = "Motor Vehicles (Type Approval) (Great Britain) Regulations 1984 (SI 1984/981), Schedule 1";
  if (r.text == "R10" || r.text == "10R") since(1968, 12, 17, "UN regulation 10, radio suppression", type_approval);
  else if (r.text == "R11" || r.text == "11R") since(1969, 1, 8, "UN regulation 11, door latches", type_approval);
  else if (r.text == "76/114" || r.text == "76/114/EEC") since(1975, 12, 18, "maker's statutory plate", "Council Directive 76/114/EEC of 18 December 1975");
  else {
    r.certainty = CodeCertainty::no_rule;
    r.faults.push_back({"no date is held for the rule '" + std::string(rule) + "'", "a mark is never older than the rule it names: look up the rule's first date"});
    return r;
  }
  r.remarks.push_back("A mark is never older than its rule. It sets no latest date: spare parts carry present marks.");
  return r;
}

}  // namespace exworks
