#include "assess/marginals.hpp"

#include <algorithm>

namespace exworks {

DateSet shortest_window(const std::vector<double>& odds, Month first, double level) {
  double total = 0;
  for (double p : odds) total += p;
  const double goal = level * total * (1 - 1e-12);
  DateSet best{first, first + static_cast<int>(odds.size()) - 1, first, level};
  std::size_t start = 0, length = odds.size() + 1;
  double sum = 0, best_sum = 0;
  for (std::size_t end = 0; end < odds.size(); ++end) {
    sum += odds[end];
    while (start < end && sum - odds[start] >= goal) sum -= odds[start++];
    const std::size_t now = end - start + 1;
    if (sum >= goal && (now < length || (now == length && sum > best_sum))) {
      length = now;
      best_sum = sum;
      best.from = first + static_cast<int>(start);
      best.to = first + static_cast<int>(end);
    }
  }
  best.most_likely = first + static_cast<int>(std::max_element(odds.begin(), odds.end()) - odds.begin());
  return best;
}

std::vector<double> month_odds(const Tables& t, const std::vector<double>& build, Month* first) {
  Month low = t.routes.front().first, high = t.routes.front().last;
  for (const RouteInfo& r : t.routes) {
    low = std::min(low, r.first);
    high = std::max(high, r.last);
  }
  std::vector<double> odds(static_cast<std::size_t>(high - low) + 1, 0.0);
  for (const RouteInfo& r : t.routes) {
    for (std::size_t i = 0; i < r.builds(); ++i) odds[static_cast<std::size_t>(r.first - low) + i] += build[r.first_build + i];
  }
  *first = low;
  return odds;
}

namespace {

std::vector<Odds> sorted(std::vector<double> p) {
  std::vector<Odds> out;
  for (std::size_t i = 0; i < p.size(); ++i) out.push_back({i, std::min(1.0, p[i])});
  std::stable_sort(out.begin(), out.end(), [](const Odds& a, const Odds& b) { return a.p > b.p; });
  return out;
}

}  // namespace

const std::vector<Odds>& odds_of_axis(const Marginals& m, std::string_view axis) {
  if (axis == "generation") return m.generations;
  if (axis == "variant") return m.variants;
  if (axis == "market") return m.markets;
  return axis == "plant" ? m.plants : m.bodies;
}

Marginals marginals(const Tables& t, const std::vector<double>& build, double level) {
  Marginals out;
  std::vector<double> generation(t.axes.generations.size()), variant(t.axes.variants.size()), body(t.axes.bodies.size()), market(t.axes.markets.size()), plant(t.axes.plants.size());
  for (std::size_t r = 0; r < t.routes.size(); ++r) {
    const RouteInfo& route = t.routes[r];
    const auto begin = build.begin() + static_cast<std::ptrdiff_t>(route.first_build);
    const std::vector<double> months(begin, begin + static_cast<std::ptrdiff_t>(route.builds()));
    double p = 0;
    for (double m : months) p += m;
    generation[t.axes.variants[route.variant].generation] += p;
    body[t.axes.variants[route.variant].body] += p;
    variant[route.variant] += p;
    market[route.market] += p;
    plant[route.plant] += p;
    if (p <= 0) continue;
    const DateSet window = shortest_window(months, route.first, level);
    out.routes.push_back({r, window.from, window.to, std::min(1.0, p)});
  }
  std::stable_sort(out.routes.begin(), out.routes.end(), [](const RouteOdds& a, const RouteOdds& b) { return a.p > b.p; });
  while (out.routes.size() > 1 && (out.routes.back().p < 0.01 || out.routes.size() > 12)) out.routes.pop_back();
  out.generations = sorted(generation);
  out.variants = sorted(variant);
  out.bodies = sorted(body);
  out.markets = sorted(market);
  out.plants = sorted(plant);
  out.month_odds = month_odds(t, build, &out.first_month);
  out.date = shortest_window(out.month_odds, out.first_month, level);
  return out;
}

}  // namespace exworks
