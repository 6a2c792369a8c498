#include "numbers/date_codes.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "numbers/grammar.hpp"

namespace exworks {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

bool all_digits(std::string_view s) {
  return !s.empty() && std::all_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int value(char c) { return c - '0'; }

/// Monday of ISO week 1 (ISO 8601: the week that holds 4 January).
sys_days first_monday(int year) {
  const sys_days fourth{day_of(year, 1, 4)};
  return fourth - days{std::chrono::weekday{fourth}.iso_encoding() - 1};
}

bool has_week_53(int year) { return first_monday(year + 1) - first_monday(year) == days{53 * 7}; }

CodeCandidate week_of(int year, int week) {
  const std::string words = "week " + std::to_string(week) + " of " + std::to_string(year);
  if (week == 53 && !has_week_53(year)) return {day_of(year, 12, 25), day_of(year, 12, 31), words, {}};
  const sys_days monday = first_monday(year) + days{7 * (week - 1)};
  return {Day{monday}, Day{monday + days{6}}, words, {}};
}

void add_weeks(CodeReading& r, int week, const std::vector<int>& years, const std::optional<Day>& today) {
  bool later = false;
  for (const int year : years) {
    const CodeCandidate c = week_of(year, week);
    if (today && sys_days{c.first} > sys_days{*today}) {
      later = true;
      continue;
    }
    if (week == 53 && !has_week_53(year)) {
      r.remarks.push_back("By ISO 8601 " + std::to_string(year) + " has no week 53; counted from 1 January it is the last day or two, so the last week of December is taken.");
    }
    r.candidates.push_back(c);
  }
  if (later && r.candidates.empty()) r.faults.push_back({"the date lies in the future", "read the digits again; before 2000 the code had three digits"});
  if (r.candidates.size() > 1) r.remarks.push_back("The decade is not in the code; size, pattern and rating may settle it.");
}

void no_digits(CodeReading& r, std::string what) {
  r.faults.push_back({std::move(what), "read the last figures of the DOT number again; only one sidewall may carry the whole number, so look at the other too"});
}

}  // namespace

Day day_of(int year, int month, int day) {
  return Day{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)}, std::chrono::day{static_cast<unsigned>(day)}};
}

std::string to_iso(const Day& day) {
  const auto month = Month::of(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())));
  const unsigned d = static_cast<unsigned>(day.day());
  return to_iso(month) + (d < 10 ? "-0" : "-") + std::to_string(d);
}

int full_years(const Day& from, const Day& to) {
  const int years = static_cast<int>(to.year()) - static_cast<int>(from.year());
  const bool before_birthday = to.month() < from.month() || (to.month() == from.month() && to.day() < from.day());
  return years - (before_birthday ? 1 : 0);
}

std::vector<CodeCandidate> within(const CodeReading& reading, Years years) {
  std::vector<CodeCandidate> out;
  for (const CodeCandidate& c : reading.candidates) {
    if (static_cast<int>(c.first.year()) <= years.last && static_cast<int>(c.last.year()) >= years.first) out.push_back(c);
  }
  return out;
}

CodeReading read_tyre_code(std::string_view code, bool triangle, const std::optional<Day>& today) {
  CodeReading r;
  r.kind = "tyre date code";
  r.text = strip(code).text;
  r.source = "US rules on the tyre identification number, 49 CFR 574: Federal Register, 19 October 1998 and 8 July 1999 (64 FR 36807)";
  if (!all_digits(r.text) || (r.text.size() != 3 && r.text.size() != 4)) {
    no_digits(r, "'" + std::string(code) + "' is not three or four digits");
    return r;
  }
  const int week = value(r.text[0]) * 10 + value(r.text[1]);
  if (week < 1 || week > 53) {
    no_digits(r, "there is no week " + r.text.substr(0, 2));
    return r;
  }
  r.remarks.push_back("The date gives the earliest day on which this tyre can have been fitted.");
  if (week == 53) r.remarks.push_back("Week 53 is rare: read it again.");
  if (r.text.size() == 4) {
    if (triangle) r.faults.push_back({"a triangle follows four digits", "the triangle belongs to three digits of the 1990s; read the code again"});
    add_weeks(r, week, {2000 + value(r.text[2]) * 10 + value(r.text[3])}, today);
    return r;
  }
  const int last = value(r.text[2]);
  if (triangle) {
    add_weeks(r, week, {1990 + last}, today);
    r.remarks.push_back("A triangle after three digits means the 1990s (two published articles).");
    return r;
  }
  r.certainty = CodeCertainty::derived;
  add_weeks(r, week, {1970 + last, 1980 + last, 1990 + last}, today);
  r.remarks.push_back("Three digits are from before 2000. The missing triangle does not rule out the 1990s: not every maker used it.");
  if (last == 0) r.remarks.push_back("DOT numbers began about 1971 (memory), which speaks against 1970.");
  return r;
}

TyreAge gb_tyre_age(const CodeReading& tyre, TyreUse use, const Day& test) {
  if (use == TyreUse::other || sys_days{test} < sys_days{day_of(2021, 2, 1)}) return TyreAge::no_rule;
  if (tyre.candidates.empty()) return tyre.text.empty() ? TyreAge::too_old : TyreAge::undetermined;
  bool old = false, young = false;
  const Day eve{sys_days{test} - days{1}};  // "over ten years" begins the day after the tenth birthday
  for (const CodeCandidate& c : tyre.candidates) (full_years(c.last, eve) >= 10 ? old : young) = true;
  return old && young ? TyreAge::undetermined : old ? TyreAge::too_old : TyreAge::allowed;
}

CodeReading read_ford_casting(std::string_view code, Years years) {
  CodeReading r;
  r.kind = "casting date, US Ford";
  r.text = strip(code).text;
  r.source = "Ford casting and manufacturing date codes, fordclassics.com (two pages of one site)";
  r.remarks.push_back("Cast in, it is the day of the foundry; stamped or inked, the day of assembly. A foundry date later than the build means a later part.");
  static constexpr std::string_view letters = "ABCDEFGHJKLM";
  const std::string again = "read it again: one figure for the year, a letter A to M without I, then the day: 6B10";
  if (r.text.size() < 3 || r.text.size() > 4 || !all_digits(r.text.substr(0, 1)) || !all_digits(r.text.substr(2))) {
    r.faults.push_back({"'" + std::string(code) + "' is no year figure, month letter and day", again});
    return r;
  }
  const auto month = letters.find(r.text[1]);
  if (month == std::string_view::npos) {
    r.faults.push_back({std::string("'") + r.text[1] + "' is no month letter" + (r.text[1] == 'I' ? ": I is never used" : ""), again});
    return r;
  }
  const int day = std::stoi(r.text.substr(2));
  for (int year = years.first; year <= years.last; ++year) {
    if (year % 10 != value(r.text[0])) continue;
    const Day d = day_of(year, static_cast<int>(month) + 1, day);
    if (d.ok()) r.candidates.push_back({d, d, to_iso(d), {}});
  }
  if (r.candidates.empty()) {
    r.faults.push_back({"no year from " + std::to_string(years.first) + " to " + std::to_string(years.last) + " has that day", again});
  }
  r.remarks.push_back("The decade is not in the code: it comes from the part number.");
  return r;
}

CodeReading read_foundry_clock() {
  CodeReading r;
  r.kind = "foundry clock";
  r.certainty = CodeCertainty::no_rule;
  r.source = "accounts of casting clocks, e-rods.com and forabodiesonly.com, which differ";
  r.remarks.push_back("A ring of dots with a pointer shows the hour of a shift at some foundries. It is never a date; look for cast figures and letters instead.");
  return r;
}

}  // namespace exworks
