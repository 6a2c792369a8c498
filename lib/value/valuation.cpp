#include "value/valuation.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {

double kernel(double difference, double bandwidth) {
  const double z = difference / bandwidth;
  return std::exp(-0.5 * z * z);
}

double similarity(const Comparable& c, const ValuationSubject& s, const Bandwidths& b) {
  double w = kernel((s.valued - c.sold) / 12.0, b.sale_years);
  if (c.year && s.year) w *= kernel(*c.year - *s.year, b.model_years);
  if (c.condition && s.condition) w *= kernel(*c.condition - *s.condition, b.condition_steps);
  if (c.originality && s.originality) w *= kernel(*c.originality - *s.originality, b.originality_points);
  if (!c.variant.empty() && !s.variant.empty() && c.variant != s.variant) w *= b.other_variant;
  return std::max(w, 1e-12);  // so that a list of distant sales still has a middle
}

}  // namespace

double weighted_quantile(std::vector<std::pair<double, double>> items, double share) {
  if (items.empty()) return 0;
  std::sort(items.begin(), items.end());
  double total = 0, below = 0;
  for (const auto& [value, weight] : items) total += weight;
  for (const auto& [value, weight] : items) {
    below += weight;
    if (below >= share * total * (1 - 1e-12)) return value;
  }
  return items.back().first;
}

Valuation value_note(const std::vector<Comparable>& sales, const ValuationSubject& subject, const Bandwidths& bandwidths) {
  Valuation out;
  out.subject = subject;
  out.bandwidths = bandwidths;
  double total = 0, squares = 0;
  for (const Comparable& c : sales) {
    const double years = (subject.valued - c.sold) / 12.0;
    out.sales.push_back({c, c.price * std::pow(1 + subject.trend, years), similarity(c, subject, bandwidths)});
    total += out.sales.back().weight;
    out.currency = c.currency;
  }
  if (out.sales.empty()) return out;
  std::vector<std::pair<double, double>> items;
  for (WeightedSale& s : out.sales) {
    s.weight /= total;
    squares += s.weight * s.weight;
    items.push_back({s.adjusted, s.weight});
  }
  out.effective = 1 / squares;
  if (sales.size() < enough_sales) {
    const auto [low, high] = std::minmax_element(items.begin(), items.end());
    out.low = low->first;
    out.high = high->first;
  } else {
    out.low = weighted_quantile(items, 0.10);
    out.high = weighted_quantile(items, 0.90);
    out.middle = weighted_quantile(items, 0.50);
  }
  return out;
}

}  // namespace exworks
