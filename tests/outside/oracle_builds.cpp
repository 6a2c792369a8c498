#include "oracle_builds.hpp"

#include <algorithm>
#include <numeric>

namespace exworks::test::oracle {

Real sum(const Reals& numbers) {
  return std::accumulate(numbers.begin(), numbers.end(), Real{0});
}

bool inside(const Window& window, int month) {
  return month >= window.first && month <= window.last;
}

bool covers(const SmallPack& pack, const Scope& scope, const Build& build) {
  const auto member = [](const std::vector<bool>& axis, std::size_t i) { return axis.empty() || axis[i]; };
  const Variant& variant = pack.variants[build.variant];
  return member(scope.generations, variant.generation) && member(scope.variants, build.variant) &&
         member(scope.bodies, variant.body) && member(scope.markets, build.market) && member(scope.plants, build.plant);
}

Real ramp(const std::optional<Window>& edge, int month, Real absent) {
  if (!edge) return absent;
  if (month < edge->first) return 0;
  if (month > edge->last) return 1;
  return (static_cast<Real>(month - edge->first) + 0.5L) / static_cast<Real>(edge->last - edge->first + 1);
}

namespace {

/// How much of the month lies in the variant's window; both months named are whole, a month of a span is in doubt.
Real in_window(const Variant& variant, int month) {
  const Window& built = variant.built;
  Real out = 1;
  if (variant.doubt > 0) out *= ramp(Window{built.first, built.first + variant.doubt}, month, 1);
  if (variant.doubt_end > 0) out *= 1 - ramp(Window{built.last - variant.doubt_end, built.last}, month, 0);
  return out;
}

/// A market's share of the month: by the row that holds it, else its own.
Real market_share(const SmallPack& pack, std::size_t market, int month) {
  for (const ShareRow& row : pack.shares) {
    if (row.market == market && inside(row.months, month)) return row.share;
  }
  return pack.markets[market].share;
}

/// The share of a variant's vehicles of the month that each market and plant has.
std::vector<std::pair<Build, Real>> builds_of_month(const SmallPack& pack, std::size_t v, int month) {
  const Variant& variant = pack.variants[v];
  std::vector<std::pair<Build, Real>> out;
  Real markets = 0;
  for (std::size_t m = 0; m < pack.markets.size(); ++m) {
    const auto at_work = [&](std::size_t p) {
      const Plant& plant = pack.plants[p];
      return variant.markets[m] && variant.plants[p] && plant.markets[m] && (!plant.at_work || inside(*plant.at_work, month));
    };
    Real plants = 0;
    for (std::size_t p = 0; p < pack.plants.size(); ++p) plants += at_work(p) ? Real{pack.plants[p].share} : 0;
    if (plants <= 0) continue;
    const Real share = market_share(pack, m, month);
    markets += share;
    for (std::size_t p = 0; p < pack.plants.size(); ++p) {
      if (at_work(p)) out.push_back({{v, month, m, p}, share * Real{pack.plants[p].share} / plants});
    }
  }
  for (auto& [build, share] : out) share /= markets;
  return out;
}

/// The months in which some plant makes it.
Real months_made(const SmallPack& pack, std::size_t v) {
  const Variant& variant = pack.variants[v];
  Real out = 0;
  for (int month = variant.built.first; month <= variant.built.last; ++month)
    out += builds_of_month(pack, v, month).empty() ? 0 : in_window(variant, month);
  return out;
}

/// A volume row makes the builds in its scope and period add up to its units. The others keep theirs, or, where no variant has
/// units, as many a month as the counted ones on average.
void apply_volumes(const SmallPack& pack, Builds& builds) {
  std::vector<bool> scaled(builds.list.size(), false);
  Real units = 0, weight = 0;
  for (const Volume& volume : pack.volumes) {
    const auto counted = [&](std::size_t b) {
      return covers(pack, volume.scope, builds.list[b]) && inside(volume.months, builds.list[b].month);
    };
    Real total = 0;
    for (std::size_t b = 0; b < builds.list.size(); ++b) total += counted(b) ? builds.p[b] : 0;
    for (std::size_t b = 0; b < builds.list.size(); ++b) {
      if (counted(b)) builds.p[b] *= Real{volume.units} / total, scaled[b] = true;
    }
    units += Real{volume.units};
    weight += total;
  }
  if (weight <= 0 || std::any_of(pack.variants.begin(), pack.variants.end(), [](const Variant& v) { return v.units > 0; }))
    return;
  for (std::size_t b = 0; b < builds.list.size(); ++b) builds.p[b] *= scaled[b] ? 1 : units / weight;
}

}  // namespace

/// Units spread evenly over the months in which some plant makes the variant (along the ramps where its first or last month is in
/// doubt); those of a month by share over the markets that some plant then serves; those of a market by share over these plants.
Builds list_builds(const SmallPack& pack) {
  Builds out;
  Real units = 0, counted = 0;
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    if (pack.variants[v].units > 0) units += Real{pack.variants[v].units}, counted += months_made(pack, v);
  }
  for (std::size_t v = 0; v < pack.variants.size(); ++v) {
    const Variant& variant = pack.variants[v];
    // A variant without units: as many a month as the others on average; where none has any, every month weighs the same.
    const Real a_month = variant.units > 0 ? Real{variant.units} / months_made(pack, v) : units > 0 ? units / counted : 1;
    for (int month = variant.built.first; month <= variant.built.last; ++month) {
      for (const auto& [build, share] : builds_of_month(pack, v, month)) {
        out.list.push_back(build);
        out.p.push_back(a_month * in_window(variant, month) * share);
      }
    }
  }
  apply_volumes(pack, out);
  const Real total = sum(out.p);
  for (Real& p : out.p) p /= total;
  return out;
}

Reals where_it_stands(const SmallPack& pack, const Builds& builds, const std::string& country) {
  Real sold_there = 0;
  const auto there = [&](std::size_t b) { return !country.empty() && pack.markets[builds.list[b].market].country == country; };
  for (std::size_t b = 0; b < builds.list.size(); ++b) sold_there += there(b) ? builds.p[b] : 0;
  if (sold_there <= 0) return builds.p;
  Reals out;
  const Real local = pack.rates.local;
  for (std::size_t b = 0; b < builds.list.size(); ++b)
    out.push_back(local * (there(b) ? builds.p[b] / sold_there : 0) + (1 - local) * builds.p[b]);
  return out;
}

}  // namespace exworks::test::oracle
