#include "base/date.hpp"

#include <algorithm>
#include <array>

namespace exworks {

namespace {

bool all_digits(std::string_view s) {
  return !s.empty() && std::all_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int to_int(std::string_view digits) {
  int n = 0;
  for (char c : digits) n = n * 10 + (c - '0');
  return n;
}

/// One point of EDTF without brackets: a day (cut to its month), a month, a season, a year or a decade.
std::optional<Edge> parse_point(std::string_view text) {
  bool doubtful = false;
  if (!text.empty() && (text.back() == '~' || text.back() == '?' || text.back() == '%')) {
    doubtful = true;
    text.remove_suffix(1);
  }
  Edge edge;
  int margin = 2;  // months either side of a doubtful month: judgement, stated in rules/FORMAT.md
  if (text.size() == 4 && all_digits(text.substr(0, 3)) && text[3] == 'X') {
    const int decade = to_int(text.substr(0, 3)) * 10;
    edge = {Month::of(decade, 1), Month::of(decade + 9, 12)};
    margin = 60;
  } else if (text.size() == 4 && all_digits(text)) {
    edge = {Month::of(to_int(text), 1), Month::of(to_int(text), 12)};
    margin = 12;
  } else if (text.size() >= 7 && all_digits(text.substr(0, 4)) && text[4] == '-' && all_digits(text.substr(5, 2))) {
    const int year = to_int(text.substr(0, 4));
    const int part = to_int(text.substr(5, 2));
    if (text.size() != 7) {  // a day
      if (text.size() != 10 || text[7] != '-' || !all_digits(text.substr(8))) return std::nullopt;
      static constexpr std::array<int, 12> days{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
      const int day = to_int(text.substr(8));
      if (part < 1 || part > 12 || day < 1 || day > days[static_cast<std::size_t>(part - 1)]) return std::nullopt;
    }
    if (part >= 1 && part <= 12) {
      edge = {Month::of(year, part), Month::of(year, part)};
    } else if (part >= 21 && part <= 24) {
      const Month start = Month::of(year, 3) + (part - 21) * 3;
      edge = {start, start + 2};
    } else {
      return std::nullopt;
    }
  } else {
    return std::nullopt;
  }
  if (edge.first.year() < 1) return std::nullopt;
  if (doubtful) {
    edge.first = edge.first - margin;
    edge.last = edge.last + margin;
  }
  return edge;
}

}  // namespace

std::string to_iso(Month m) {
  std::string year = std::to_string(m.year());
  year.insert(0, year.size() < 4 ? 4 - year.size() : 0, '0');
  const std::string month = std::to_string(m.month());
  return year + '-' + (month.size() < 2 ? "0" : "") + month;
}

std::string to_words(Month m) {
  static constexpr std::array<const char*, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return std::string(names[static_cast<std::size_t>(m.month() - 1)]) + ' ' + std::to_string(m.year());
}

double share_after(const Edge& edge, Month m) {
  if (edge.open || m > edge.last) return 1.0;
  if (m < edge.first) return 0.0;
  return (m - edge.first + 0.5) / edge.months();
}

double presence(const std::optional<Edge>& from, const std::optional<Edge>& to, Month m) {
  const double begun = from ? share_after(*from, m) : 1.0;
  const double ended = to && !to->open ? share_after(*to, m) : 0.0;
  return begun * (1 - ended);
}

std::optional<Edge> parse_edge(std::string_view text, std::string* why) {
  const auto fail = [&](std::string reason) -> std::optional<Edge> {
    if (why != nullptr) *why = std::move(reason);
    return std::nullopt;
  };
  if (text == "..") return Edge{{}, {}, true};
  std::string_view inner = text;
  std::size_t cut = std::string_view::npos;
  std::size_t width = 1;
  if (inner.size() > 2 && inner.front() == '[' && inner.back() == ']') {
    inner = inner.substr(1, inner.size() - 2);
    cut = inner.find("..");
    width = 2;
    if (cut == std::string_view::npos) return fail("a span in brackets is written [1950-10..1951-01]");
  } else {
    cut = inner.find('/');
  }
  if (cut == std::string_view::npos) {
    if (const auto point = parse_point(inner)) return point;
    return fail("a date is written 1951-01, 1951, 195X, 1951-22, 1951-01~ or [1950-10..1951-01]");
  }
  const auto a = parse_point(inner.substr(0, cut));
  const auto b = parse_point(inner.substr(cut + width));
  if (!a || !b) return fail("both ends of a span are dates such as 1951-01 or 1951");
  if (b->last < a->first) return fail("the span ends before it begins");
  return Edge{a->first, b->last};
}

std::string to_words(const Edge& edge) {
  if (edge.open) return "open";
  if (edge.first == edge.last) return to_words(edge.first);
  return to_words(edge.first) + " to " + to_words(edge.last);
}

std::string span_words(Month from, Month to) { return from == to ? to_words(from) : to_words(from) + " to " + to_words(to); }

CalendarDay first_day(Month m) { return {m, 1}; }

CalendarDay last_day(Month m) {
  static constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const int y = m.year();
  const bool leap = (y % 4 == 0 && y % 100 != 0) || y % 400 == 0;
  return {m, m.month() == 2 && leap ? 29 : days[static_cast<std::size_t>(m.month() - 1)]};
}

std::string to_iso(const CalendarDay& d) { return to_iso(d.month) + (d.day < 10 ? "-0" : "-") + std::to_string(d.day); }

int years_between(const CalendarDay& a, const CalendarDay& b) {
  const int months = b.month - a.month;
  const bool reached = b.day >= a.day;
  const int whole = reached ? months : months - 1;
  return whole >= 0 ? whole / 12 : -1;
}

std::optional<CalendarDay> parse_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto edge = parse_edge(text, nullptr);
  if (!edge) return std::nullopt;
  return CalendarDay{edge->first, to_int(text.substr(8))};
}

}  // namespace exworks
