#pragma once
#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace exworks {

/// A calendar month, counted from January of year 0. Years 1 to 9999.
struct Month {
  int index = 0;

  static Month of(int year, int month) { return {year * 12 + month - 1}; }
  int year() const { return index / 12; }
  int month() const { return index % 12 + 1; }  ///< 1 to 12
  auto operator<=>(const Month&) const = default;
};

inline Month operator+(Month m, int months) { return {m.index + months}; }
inline int operator-(Month a, Month b) { return a.index - b.index; }
inline Month operator-(Month m, int months) { return {m.index - months}; }

/// "1951-01"
std::string to_iso(Month month);
/// "Jan 1951"
std::string to_words(Month month);

/// Where a dated change lies: in one of the months `first` to `last`, both included, each as likely as the other.
/// An open edge (`..`) sets no limit.
struct Edge {
  Month first;
  Month last;
  bool open = false;
  bool operator==(const Edge&) const = default;

  int months() const { return last - first + 1; }
};

/// Share of the builds of month `m` made after the change at `edge`: 0 before the window, 1 after it, and inside it
/// a straight line taken at the middle of the month. An open edge gives 1.
double share_after(const Edge& edge, Month m);

/// Share of the builds of month `m` that lie after `from` and not after `to`: the two ramps multiplied, since one edge
/// says nothing of where the other lies. No edge: no limit.
double presence(const std::optional<Edge>& from, const std::optional<Edge>& to, Month m);

/// A calendar day; ordered.
struct CalendarDay {
  Month month;
  int day = 1;
  auto operator<=>(const CalendarDay&) const = default;
};
CalendarDay first_day(Month m);
CalendarDay last_day(Month m);
std::string to_iso(const CalendarDay& day);
/// "2026-11-20"; nothing for any other text.
std::optional<CalendarDay> parse_day(std::string_view text);
/// Whole years from `a` to `b`, as a birthday counts them; 29 February counts as 1 March in other years. -1 when b lies before a.
int years_between(const CalendarDay& a, const CalendarDay& b);

/// Reads the forms of ISO 8601-2 (EDTF, level 1 and `[..]` of level 2) named in rules/FORMAT.md.
/// Nothing is returned for any other text; `why` then says what is wrong with it.
std::optional<Edge> parse_edge(std::string_view text, std::string* why);

/// "1951-01" or "1950-10 to 1951-01"
std::string to_words(const Edge& edge);
/// "Sep 1948 to Jan 1951", or "Sep 1948" when both are the same.
std::string span_words(Month from, Month to);

}  // namespace exworks
