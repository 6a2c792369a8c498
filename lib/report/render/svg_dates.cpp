#include <algorithm>

#include "report/render/page.hpp"
#include "report/render/svg.hpp"
#include "words/reasons.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

constexpr double fitted_from = 0.02;  ///< a share below this counts as not fitted
constexpr std::size_t most_bars = 12;

bool may_be(const std::vector<Odds>& odds, std::size_t index) {
  return std::any_of(odds.begin(), odds.end(), [&](const Odds& o) { return o.index == index && o.p >= 0.01; });
}

/// Runs of months in which the value was fitted.
std::vector<std::pair<std::size_t, std::size_t>> runs(const Period& p) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t m = 0; m < p.share.size(); ++m) {
    if (p.share[m] < fitted_from) continue;
    if (!out.empty() && out.back().second + 1 == m) out.back().second = m;
    else out.push_back({m, m});
  }
  return out;
}

std::size_t length(const Period& p) {
  return static_cast<std::size_t>(std::count_if(p.share.begin(), p.share.end(), [](double s) { return s >= fitted_from; }));
}

}  // namespace

Periods works_periods(const Tables& t, const Assessment& a) {
  std::vector<const RouteInfo*> routes;
  for (const RouteInfo& r : t.routes) {
    if (may_be(a.bodies, t.axes.variants[r.variant].body) && may_be(a.markets, r.market)) routes.push_back(&r);
  }
  Periods out;
  if (routes.empty()) return out;
  out.first = routes.front()->first;
  Month last = routes.front()->last;
  for (const RouteInfo* r : routes) {
    out.first = std::min(out.first, r->first);
    last = std::max(last, r->last);
  }
  std::vector<bool> made(static_cast<std::size_t>(last - out.first) + 1, false);
  for (std::size_t i = 0; i < a.features.size(); ++i) {
    const FeatureVerdict& f = a.features[i];
    if (f.finding.silent()) continue;
    const FeatureInfo& info = t.features[f.finding.feature];
    Period p{i, std::vector<double>(made.size(), 0.0), false, false};
    for (const RouteInfo* r : routes) {
      for (std::size_t k = 0; k < r->builds(); ++k) {
        const std::size_t month = static_cast<std::size_t>(r->first - out.first) + k;
        made[month] = true;
        const Column& column = info.columns[info.column_of[t.cell_of[r->first_build + k]]];
        if (column.applies && !column.silent) {
          double share = 0;
          for (std::size_t v : f.noted) share += column.share[v];
          p.share[month] = std::max(p.share[month], share);
        }
      }
    }
    p.never = length(p) == 0;
    p.always = true;
    for (std::size_t m = 0; m < made.size(); ++m) p.always = p.always && (!made[m] || p.share[m] >= fitted_from);
    out.items.push_back(std::move(p));
  }
  return out;
}

std::string period_text(const Periods& periods, const Period& period) {
  if (period.never) return "never on these vehicles";
  if (period.always) return "all the time";
  std::string out;
  for (const auto& [from, to] : runs(period)) out += (out.empty() ? "" : ", ") + span_words(periods.first + static_cast<int>(from), periods.first + static_cast<int>(to));
  return out;
}

std::vector<Period> chosen_periods(const Assessment& a, const Periods& periods) {
  std::vector<Period> later, rest;
  for (const Period& p : periods.items) {
    const VerdictKind kind = a.features[p.feature].verdict;
    if (kind == VerdictKind::later_change) later.push_back(p);
    else if (!p.always && !p.never) rest.push_back(p);
  }
  std::stable_sort(rest.begin(), rest.end(), [](const Period& x, const Period& y) { return length(x) < length(y); });
  if (later.size() > most_bars / 2) later.resize(most_bars / 2);
  rest.resize(std::min(rest.size(), most_bars - later.size()));
  rest.insert(rest.end(), later.begin(), later.end());
  return rest;
}

Figure figure_dates(const Tables& t, const Assessment& a) {
  const Periods periods = works_periods(t, a);
  const std::vector<Period> bars = chosen_periods(a, periods);
  Month first = std::min(periods.first, a.first_month), last = a.first_month + static_cast<int>(a.month_odds.size());
  for (const Period& p : bars) last = std::max(last, periods.first + static_cast<int>(p.share.size()));
  first = Month::of(first.year(), 1);
  last = Month::of(last.year() + (last.month() > 1 ? 1 : 0), 1);
  constexpr double left = 8, right = Svg::width - 8, top = 30, foot = 104, row = 31;
  const double scale = (right - left) / std::max(1, last - first);
  const auto x = [&](double month_index) { return left + (month_index - first.index) * scale; };

  const std::string says = "Built " + span_words(a.date.from, a.date.to) + " with " + percent(a.date.level) + " of the odds; most likely " + to_words(a.date.most_likely) + ".";
  Svg svg("dates", foot + 34 + row * static_cast<double>(bars.size()), "Build date, and when the works fitted what was seen", says);
  svg.rect(x(a.date.from.index), top - 6, std::max(2.0, (a.date.to - a.date.from + 1) * scale), foot - top + 30 + row * static_cast<double>(bars.size()), "ground");
  svg.text(std::clamp(x((a.date.from.index + a.date.to.index + 1) / 2.0), 105.0, Svg::width - 105), 14, "built " + span_words(a.date.from, a.date.to), Svg::Anchor::middle, "ink", true);

  const double peak = *std::max_element(a.month_odds.begin(), a.month_odds.end());
  std::vector<std::pair<double, double>> curve{{x(a.first_month.index), foot}};
  for (std::size_t m = 0; m < a.month_odds.size(); ++m) {
    const double y = foot - (foot - top) * a.month_odds[m] / peak;
    curve.push_back({x(a.first_month.index + static_cast<double>(m)), y});
    curve.push_back({x(a.first_month.index + static_cast<double>(m) + 1), y});
  }
  curve.push_back({x(a.first_month.index + static_cast<double>(a.month_odds.size())), foot});
  svg.polygon(curve, "g-original", 0.85);

  svg.line(left, foot, right, foot);
  const int years = last.year() - first.year();
  const int step = years > 30 ? 10 : years > 14 ? 5 : years > 7 ? 2 : 1;
  for (int y = first.year(); y <= last.year(); ++y) {
    const double at = x(Month::of(y, 1).index);
    svg.line(at, foot, at, foot + (y % step == 0 ? 6 : 3));
    if (y % step == 0 && at > left + 10 && at < right - 10) svg.text(at, foot + 18, std::to_string(y), Svg::Anchor::middle, "mute", false, 11);
  }

  double y = foot + 38;
  for (const Period& p : bars) {
    const FeatureVerdict& f = a.features[p.feature];
    const std::string_view tone = verdict_tone(f.verdict);
    const Mark mark = verdict_mark(f.verdict);
    const std::string sign = mark == Mark::original ? "✓ " : mark == Mark::later ? "✕ " : "~ ";
    svg.text(left, y, fitted(sign + feature_words(t, f), 58), Svg::Anchor::start, tone, mark == Mark::later, 11.5);
    if (!p.never) svg.line(left, y + 9, right, y + 9, "line", true);
    else svg.text(left, y + 13, "not fitted by the works to these vehicles", Svg::Anchor::start, "mute", false, 10.5);
    for (const auto& [from, to] : runs(p)) {  // a ramp of the share is drawn as a taper
      const double highest = *std::max_element(p.share.begin() + static_cast<std::ptrdiff_t>(from), p.share.begin() + static_cast<std::ptrdiff_t>(to) + 1);
      std::vector<std::pair<double, double>> upper, lower;
      for (std::size_t m = from; m <= to; ++m) {
        const double half = 5.5 * std::max(0.15, p.share[m] / highest);
        for (double side : {0.0, 1.0}) {
          const double at = x(periods.first.index + static_cast<double>(m) + side);
          if (m > from && m < to && p.share[m] == p.share[m - 1] && p.share[m] == p.share[m + 1]) continue;
          upper.push_back({at, y + 9 - half});
          lower.push_back({at, y + 9 + half});
        }
      }
      upper.insert(upper.end(), lower.rbegin(), lower.rend());
      svg.polygon(upper, tone);
    }
    y += row;
  }
  return {svg.finish(),
          "The curve: odds of the build month. The shaded band: " + percent(a.date.level) + " of them. Each bar: when the works fitted what was seen to a vehicle of this body and market; it tapers where "
          "the changeover is not dated to the month. A bar that misses the band does not belong to it.",
          says};
}

}  // namespace exworks
