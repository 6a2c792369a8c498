#include "engine/compile/relatives.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

namespace {

constexpr double same = 1e-9;  // shares closer than this are one and the same fact

bool alike(const std::vector<double>& a, const std::vector<double>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), [](double x, double y) { return std::abs(x - y) <= same; });
}

/// To shares of one, rounded far below what any figure shows: months that differ by no more than the order of a sum are alike.
std::vector<std::pair<ColumnIndex, double>> shares_of(const std::map<ColumnIndex, double>& masses) {
  double sum = 0;
  for (const auto& [column, p] : masses) sum += p;
  std::vector<std::pair<ColumnIndex, double>> out;
  for (const auto& [column, p] : masses) out.emplace_back(column, std::round(p / sum * 1e13) / 1e13);
  return out;
}

}  // namespace

Relatives::Relatives(const Tables& tables, const FeatureInfo& info, const std::vector<std::vector<ColumnIndex>>& columns)
    : t_(tables), info_(info), columns_(columns) {
  const auto body = [&](const RouteInfo& r) { return t_.axes.variants[r.variant].body; };
  const auto market = [](const RouteInfo& r) { return r.market; };
  own_market_ = differs([](const RouteInfo& r) { return r.variant; }, market);
  own_body_ = differs([&](const RouteInfo& r) { return t_.axes.variants[r.variant].generation * t_.axes.markets.size() + r.market; }, body);
  for (const RouteInfo& r : t_.routes) {
    first_ = std::min(first_.value_or(r.first), r.first);
    last_ = std::max(last_.value_or(r.last), r.last);
  }
}

const Column* Relatives::spoken_of(std::size_t route, Month month) const {
  const RouteInfo& r = t_.routes[route];
  if (month < r.first || month > r.last) return nullptr;
  const Column& c = info_.columns[columns_[route][static_cast<std::size_t>(month - r.first)]];
  return c.silent ? nullptr : &c;
}

const Column* Relatives::relative(std::size_t route, Month month) const {
  const Column* c = spoken_of(route, month);
  return c == nullptr || !c->applies ? nullptr : c;
}

template <class Group, class Attribute>
bool Relatives::differs(Group group, Attribute attribute) const {
  std::map<std::size_t, std::vector<std::size_t>> groups;
  for (std::size_t r = 0; r < t_.routes.size(); ++r) groups[group(t_.routes[r])].push_back(r);
  struct Seen {
    std::size_t attribute;
    const Column* column;
  };
  std::vector<Seen> seen;
  for (const auto& [key, routes] : groups) {
    Month first = t_.routes[routes.front()].first, last = t_.routes[routes.front()].last;
    for (std::size_t r : routes) first = std::min(first, t_.routes[r].first), last = std::max(last, t_.routes[r].last);
    for (Month m = first; m <= last; m = m + 1) {
      seen.clear();
      for (std::size_t r : routes) {
        const Column* c = spoken_of(r, m);
        const std::size_t own = attribute(t_.routes[r]);
        if (c == nullptr || std::any_of(seen.begin(), seen.end(), [&](const Seen& s) { return s.attribute == own && s.column == c; })) continue;
        for (const Seen& s : seen) {
          if (s.attribute != own && s.column != c && !alike(s.column->share, c->share)) return true;
        }
        seen.push_back({own, c});
      }
    }
  }
  return false;
}

/// Adds up what the pack says of these routes in a month; nothing where it is silent on all of them.
std::vector<double> Relatives::mean_of(const std::vector<std::size_t>& routes, Month month) const {
  std::vector<double> mean;
  double sum = 0;
  for (std::size_t r : routes) {
    const Column* c = relative(r, month);
    if (c == nullptr) continue;
    const double p = t_.prior[t_.routes[r].first_build + static_cast<std::size_t>(month - t_.routes[r].first)];
    if (p <= 0) continue;
    mean.resize(info_.value_count(), 0.0);
    sum += p;
    for (std::size_t v = 0; v < mean.size(); ++v) mean[v] += p * c->share[v];
  }
  for (double& x : mean) x /= sum;
  return mean;
}

/// The routes on which relatives of this one may be found, the nearest group first.
Relatives::Circles Relatives::circles_of(const RouteInfo& own) const {
  Circles out;
  const VariantInfo& variant = t_.axes.variants[own.variant];
  for (std::size_t i = 0; i < t_.routes.size(); ++i) {
    const RouteInfo& r = t_.routes[i];
    const VariantInfo& other = t_.axes.variants[r.variant];
    if ((own_market_ && r.market != own.market) || (own_body_ && other.body != variant.body)) continue;
    if (r.variant == own.variant) out[0].push_back(i);
    if (other.generation == variant.generation && other.body == variant.body) out[1].push_back(i);
    if (other.generation == variant.generation) out[2].push_back(i);
    if (other.generation + 1 == variant.generation || other.generation == variant.generation + 1) out[3].push_back(i);
  }
  return out;
}

std::vector<double> Relatives::nearest(std::size_t route, Month month) {
  const RouteInfo& own = t_.routes[route];
  Kin& kin = kin_[{own.variant, own_market_ ? own.market : MarketIndex{}}];
  if (kin.by_month.empty()) {
    kin.circles = circles_of(own);
    kin.first = t_.axes.variants[own.variant].first;
    kin.by_month.resize(static_cast<std::size_t>(t_.axes.variants[own.variant].last - kin.first) + 1);
  }
  const auto search = [&](bool but_own) {
    for (const auto& routes : kin.circles) {
      std::vector<std::size_t> others = routes;
      if (but_own) std::erase(others, route);
      std::vector<double> mean = mean_of(others, month);
      if (!mean.empty()) return mean;
    }
    return std::vector<double>{};
  };
  // Silent by its number, but not by its date: it is no relative of its own.
  if (relative(route, month) != nullptr) return search(true);
  auto& slot = kin.by_month[static_cast<std::size_t>(month - kin.first)];
  if (!slot) slot = search(false);
  return *slot;
}

/// The builds of a month of which the pack speaks, by column; of all months where there is none.
const Relatives::Shares& Relatives::spoken_in(Month month) {
  if (in_month_.empty()) {
    in_month_.resize(static_cast<std::size_t>(*last_ - *first_) + 1);
    std::vector<std::map<ColumnIndex, double>> masses(in_month_.size());
    std::map<ColumnIndex, double> all;
    for (std::size_t r = 0; r < t_.routes.size(); ++r) {
      for (std::size_t i = 0; i < t_.routes[r].builds(); ++i) {
        const Month at = t_.routes[r].first + static_cast<int>(i);
        const double p = t_.prior[t_.routes[r].first_build + i];
        if (relative(r, at) == nullptr || p <= 0) continue;
        masses[static_cast<std::size_t>(at - *first_)][columns_[r][i]] += p;
        all[columns_[r][i]] += p;
      }
    }
    for (std::size_t m = 0; m < masses.size(); ++m) in_month_[m] = shares_of(masses[m].empty() ? all : masses[m]);
  }
  return in_month_[static_cast<std::size_t>(month - *first_)];
}

Column Relatives::related(std::size_t route, Month month, const Column& silent) {
  Column out = silent;
  const std::vector<double> mean = nearest(route, month);
  if (mean.empty()) {
    out.mean_of = spoken_in(month);
    if (!out.mean_of.empty()) std::fill(out.share.begin(), out.share.end(), 0.0);
    for (const auto& [column, share] : out.mean_of) {
      for (std::size_t v = 0; v < out.share.size(); ++v) out.share[v] += share * info_.columns[column].share[v];
    }
    return out;
  }
  for (std::size_t v = 0; v < out.share.size(); ++v) out.share[v] = t_.rates.relative * mean[v] + (1 - t_.rates.relative) * silent.share[v];
  return out;
}

}  // namespace exworks
