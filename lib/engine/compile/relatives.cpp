#include "engine/compile/relatives.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace exworks {

namespace {

constexpr double same = 1e-9;  // shares closer than this are one and the same fact

bool alike(const std::vector<double>& a, const std::vector<double>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), [](double x, double y) { return std::abs(x - y) <= same; });
}

}  // namespace

Relatives::Relatives(const Tables& tables, const FeatureInfo& info, const std::vector<std::vector<ColumnIndex>>& columns)
    : t_(tables), info_(info), columns_(columns) {
  const auto body = [&](const RouteInfo& r) { return t_.axes.variants[r.variant].body; };
  const auto market = [](const RouteInfo& r) { return r.market; };
  own_market_ = differs([](const RouteInfo& r) { return r.variant; }, market);
  own_body_ = differs([&](const RouteInfo& r) { return t_.axes.variants[r.variant].generation * t_.axes.markets.size() + r.market; }, body);
  double sum = 0;
  Shares mean(info.value_count(), 0.0);
  for (std::size_t r = 0; r < t_.routes.size(); ++r) {
    for (std::size_t i = 0; i < t_.routes[r].builds(); ++i) {
      const Column* c = spoken(r, t_.routes[r].first + static_cast<int>(i));
      const double p = t_.prior[t_.routes[r].first_build + i];
      if (c == nullptr || p <= 0) continue;
      sum += p;
      for (std::size_t v = 0; v < mean.size(); ++v) mean[v] += p * c->share[v];
    }
  }
  if (sum <= 0) return;
  for (double& x : mean) x /= sum;
  everywhere_ = std::move(mean);
}

/// The column of a build of which the pack speaks; null where it is silent, the feature doesn't exist, or the route has no such month.
const Column* Relatives::spoken(std::size_t route, Month month) const {
  const RouteInfo& r = t_.routes[route];
  if (month < r.first || month > r.last) return nullptr;
  const Column& c = info_.columns[columns_[route][static_cast<std::size_t>(month - r.first)]];
  return c.silent || !c.applies ? nullptr : &c;
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
        const Column* c = spoken(r, m);
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

template <class Member>
Relatives::Kin Relatives::mean_of(Month month, Member member) const {
  Kin kin;
  double sum = 0;
  for (std::size_t r = 0; r < t_.routes.size(); ++r) {
    if (!member(t_.routes[r])) continue;
    const Column* c = spoken(r, month);
    if (c == nullptr) continue;
    const double p = t_.prior[t_.routes[r].first_build + static_cast<std::size_t>(month - t_.routes[r].first)];
    if (p <= 0) continue;
    if (!kin.any) kin.mean.assign(info_.value_count(), 0.0);
    kin.any = true;
    sum += p;
    for (std::size_t v = 0; v < kin.mean.size(); ++v) kin.mean[v] += p * c->share[v];
  }
  for (double& x : kin.mean) x /= sum;
  return kin;
}

Relatives::Kin Relatives::nearest(std::size_t route, Month month) const {
  const RouteInfo& own = t_.routes[route];
  const VariantInfo& variant = t_.axes.variants[own.variant];
  const auto allowed = [&](const RouteInfo& r) { return (!own_market_ || r.market == own.market) && (!own_body_ || t_.axes.variants[r.variant].body == variant.body); };
  const auto generation = [&](const RouteInfo& r) { return t_.axes.variants[r.variant].generation; };
  const auto beside = [&](const RouteInfo& r) { return generation(r) + 1 == variant.generation || generation(r) == variant.generation + 1; };
  Kin kin = mean_of(month, [&](const RouteInfo& r) { return r.variant == own.variant && allowed(r); });
  if (!kin.any) kin = mean_of(month, [&](const RouteInfo& r) { return generation(r) == variant.generation && t_.axes.variants[r.variant].body == variant.body && allowed(r); });
  if (!kin.any) kin = mean_of(month, [&](const RouteInfo& r) { return generation(r) == variant.generation && allowed(r); });
  if (!kin.any) kin = mean_of(month, [&](const RouteInfo& r) { return beside(r) && allowed(r); });
  return kin;
}

Column Relatives::related(std::size_t route, Month month, const Column& silent) {
  Column out = silent;
  const RouteInfo& own = t_.routes[route];
  const auto [at, fresh] = known_.try_emplace({own.variant, own_market_ ? own.market : 0, month.index});
  if (fresh) at->second = nearest(route, month);
  const Kin& kin = at->second;
  if (!kin.any) {
    out.unrelated = !everywhere_.empty();
    if (out.unrelated) out.share = everywhere_;
    return out;
  }
  for (std::size_t v = 0; v < out.share.size(); ++v) out.share[v] = t_.rates.relative * kin.mean[v] + (1 - t_.rates.relative) * silent.share[v];
  return out;
}

}  // namespace exworks
