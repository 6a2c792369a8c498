#include <algorithm>
#include <numeric>

#include "oracle.hpp"

/// The tables of the model: prior, what the works fitted, what later changes leave, and the inspector's slips.
namespace exworks::test::oracle {

namespace {

bool member(const std::vector<bool>& axis, std::size_t i) {
  return axis.empty() || axis[i];
}

bool inside(const Window& window, int month) {
  return month >= window.first && month <= window.last;
}

Real sum(const Reals& numbers) {
  return std::accumulate(numbers.begin(), numbers.end(), Real{0});
}

void even_over(Reals& shares, std::size_t count) {
  std::fill(shares.begin(), shares.begin() + static_cast<std::ptrdiff_t>(count), Real{1} / static_cast<Real>(count));
}

/// A silent build: even over the named values that some fact or legal line of the feature gives, over all where none does; `other` gets none.
Reals even_over_works_values(const Feature& feature) {
  Reals out(feature.values + 1, 0);
  for (const Fact& fact : feature.facts) out[fact.value] = 1;
  for (const auto& [law, value] : feature.laws) out[value] = 1;
  out.back() = 0;
  if (sum(out) <= 0) even_over(out, feature.values);
  const Real all = sum(out);
  for (Real& share : out) share /= all;
  return out;
}

/// Standard facts with a share (`beside`) take it; those without divide the rest (2 % at least), but no more than the share
/// of the month in which they are in force. Empty where none is in force.
Reals standard_shares(Reals alone, const Reals& beside) {
  const Real plain = sum(alone), shared = sum(beside);
  if (plain + shared <= 0) return {};
  const Real rest = shared > 0 ? std::min({Real{1}, plain, std::max(1 - shared, Real{0.02L})}) : 1;
  for (std::size_t v = 0; v < alone.size(); ++v) {
    alone[v] = (plain > 0 ? rest * alone[v] / plain : 0) + (shared > 0 ? (1 - rest) * beside[v] / shared : 0);
  }
  return alone;
}

/// How much of the month lies in the variant's window; both months named are whole, a month of a span is in doubt.
Real in_window(const Variant& variant, int month) {
  const Window& built = variant.built;
  Real out = 1;
  if (variant.doubt > 0) out *= ramp(Window{built.first, built.first + variant.doubt}, month, 1);
  if (variant.doubt_end > 0) out *= 1 - ramp(Window{built.last - variant.doubt_end, built.last}, month, 0);
  return out;
}

/// Share of the vehicles of a month that a law bound: six months either side of a date of first use, five before a model year;
/// a date of manufacture is an edge like any other, of two months where it isn't the first day.
Real in_force(const Law& law, int month) {
  const auto edge = [&](int m, bool split) {
    if (law.basis == "first-used") return Window{m - 6, m + 6};
    return law.basis == "model-year" ? Window{m - 5, m} : Window{m, m + (split ? 1 : 0)};
  };
  const Real begun = ramp(edge(law.from.month, law.from.day > 1), month, 1);
  return begun * (law.to ? 1 - ramp(edge(law.to->month, false), month, 0) : 1);
}

}  // namespace

Real ramp(const std::optional<Window>& edge, int month, Real absent) {
  if (!edge) return absent;
  if (month < edge->first) return 0;
  if (month > edge->last) return 1;
  return (static_cast<Real>(month - edge->first) + 0.5L) / static_cast<Real>(edge->last - edge->first + 1);
}

Model::Model(const SmallPack& pack, const Visit& visit) : pack_(pack), visit_(visit) {
  look_at_numbers();
  list_builds();
  for (const Feature& feature : pack_.features) {
    std::vector<Works> works;
    std::vector<Reals> changed;
    for (const Build& build : builds_) {
      works.push_back(fitted(feature, build, std::nullopt));
      changed.push_back(changed_to(feature, build));
    }
    works_.push_back(works);
    changed_.push_back(changed);
  }
  for (const Look& look : visit_.looks) slips_.push_back(slips_of(look));
  list_units();
  weigh_papers();
  list_worlds();
}

bool Model::covers(const Scope& scope, const Build& build) const {
  const Variant& variant = pack_.variants[build.variant];
  return member(scope.generations, variant.generation) && member(scope.variants, build.variant) &&
         member(scope.bodies, variant.body) && member(scope.markets, build.market) && member(scope.plants, build.plant);
}

Real Model::asked(const Feature& feature, std::size_t line, const Build& build) const {
  const Law& law = pack_.laws[feature.laws[line].first];
  const std::string kind = pack_.classes.empty() ? "car" : pack_.classes[pack_.variants[build.variant].body];
  const bool binds = pack_.markets[build.market].country == law.country &&
                     std::find(law.classes.begin(), law.classes.end(), kind) != law.classes.end();
  return binds ? 0.95L * in_force(law, build.month) : 0;
}

/// How much of a build that no standard fact covers has what the law asked.
Real Model::lawful_share(const Feature& feature, const Build& build) const {
  Real out = 0;
  for (std::size_t i = 0; i < feature.laws.size(); ++i) out += asked(feature, i, build);
  return std::min(out, Real{1});
}

/// The shares of a build that no standard fact covers: legal lines in their order, and the rest even.
Reals Model::by_law(const Feature& feature, const Build& build) const {
  Reals out = even_over_works_values(feature);
  for (Real& share : out) share *= 1 - lawful_share(feature, build);
  Real left = 1;
  for (std::size_t i = 0; i < feature.laws.size(); ++i) {
    const Real taken = std::min(left, asked(feature, i, build));
    out[feature.laws[i].second] += taken;
    left -= taken;
  }
  return out;
}

/// Units spread evenly over the months in which some plant makes the variant (along the ramps where its first or last month is in
/// doubt); those of a month by share over the markets that some plant then serves; those of a market by share over these plants.
void Model::list_builds() {
  Real units = 0, counted = 0;
  for (std::size_t v = 0; v < pack_.variants.size(); ++v) {
    if (pack_.variants[v].units > 0) units += Real{pack_.variants[v].units}, counted += months_made(v);
  }
  for (std::size_t v = 0; v < pack_.variants.size(); ++v) {
    const Variant& variant = pack_.variants[v];
    // A variant without units: as many a month as the others on average; where none has any, every month weighs the same.
    const Real a_month = variant.units > 0 ? Real{variant.units} / months_made(v) : units > 0 ? units / counted : 1;
    for (int month = variant.built.first; month <= variant.built.last; ++month) {
      for (const auto& [build, share] : builds_of_month(v, month)) {
        builds_.push_back(build);
        prior_.push_back(a_month * in_window(variant, month) * share);
      }
    }
  }
  apply_volumes();
  const Real total = sum(prior_);
  for (Real& p : prior_) p /= total;
}

/// The months in which some plant makes it.
Real Model::months_made(std::size_t v) const {
  const Variant& variant = pack_.variants[v];
  Real out = 0;
  for (int month = variant.built.first; month <= variant.built.last; ++month)
    out += builds_of_month(v, month).empty() ? 0 : in_window(variant, month);
  return out;
}

/// The share of a variant's vehicles of the month that each market and plant has.
std::vector<std::pair<Build, Real>> Model::builds_of_month(std::size_t v, int month) const {
  const Variant& variant = pack_.variants[v];
  std::vector<std::pair<Build, Real>> out;
  Real markets = 0;
  for (std::size_t m = 0; m < pack_.markets.size(); ++m) {
    const auto at_work = [&](std::size_t p) {
      const Plant& plant = pack_.plants[p];
      return variant.markets[m] && variant.plants[p] && plant.markets[m] && (!plant.at_work || inside(*plant.at_work, month));
    };
    Real plants = 0;
    for (std::size_t p = 0; p < pack_.plants.size(); ++p) plants += at_work(p) ? Real{pack_.plants[p].share} : 0;
    if (plants <= 0) continue;
    markets += Real{pack_.markets[m].share};
    for (std::size_t p = 0; p < pack_.plants.size(); ++p) {
      if (at_work(p)) out.push_back({{v, month, m, p}, Real{pack_.markets[m].share} * Real{pack_.plants[p].share} / plants});
    }
  }
  for (auto& [build, share] : out) share /= markets;
  return out;
}

/// A volume row makes the builds in its scope and period add up to its units. The others keep theirs, or, where no variant has
/// units, as many a month as the counted ones on average.
void Model::apply_volumes() {
  std::vector<bool> scaled(builds_.size(), false);
  Real units = 0, weight = 0;
  for (const Volume& volume : pack_.volumes) {
    const auto counted = [&](std::size_t b) {
      return covers(volume.scope, builds_[b]) && inside(volume.months, builds_[b].month);
    };
    Real total = 0;
    for (std::size_t b = 0; b < builds_.size(); ++b) total += counted(b) ? prior_[b] : 0;
    for (std::size_t b = 0; b < builds_.size(); ++b) {
      if (counted(b)) prior_[b] *= Real{volume.units} / total, scaled[b] = true;
    }
    units += Real{volume.units};
    weight += total;
  }
  if (weight <= 0 || std::any_of(pack_.variants.begin(), pack_.variants.end(), [](const Variant& v) { return v.units > 0; })) return;
  for (std::size_t b = 0; b < builds_.size(); ++b) prior_[b] *= scaled[b] ? 1 : units / weight;
}

Works Model::fitted(const Feature& feature, const Build& build, std::optional<Serial> serial) const {
  if (feature.of_number) return range_shares(pack_.numbers[*feature.of_number], build);
  Works out{Reals(feature.values + 1, 0), false};
  if (!covers(feature.applies, build)) {
    (feature.elsewhere ? out.share[*feature.elsewhere] : out.share.back()) = 1;
    return out;
  }
  Reals alone(feature.values + 1, 0), beside(feature.values + 1, 0);
  for (const Fact& fact : feature.facts) {
    if (!covers(fact.scope, build)) continue;
    // A changeover that is known by number is passed or not; both edges name the first vehicle after the change.
    const Real begun = serial && fact.from_number ? (*serial >= *fact.from_number ? 1 : 0) : ramp(fact.from, build.month, 1);
    const Real ended = serial && fact.to_number ? (*serial >= *fact.to_number ? 1 : 0) : ramp(fact.to, build.month, 0);
    const Real present = begun * (1 - ended);
    Reals& shares = fact.fitted != "standard" ? out.share : fact.share ? beside : alone;
    shares[fact.value] += present * Real{fact.share.value_or(1)};
  }
  const Real optional = sum(out.share);
  for (Real& share : out.share) share *= optional > 0.98L ? 0.98L / optional : 1;
  const Real left = 1 - std::min(optional, Real{0.98L});
  const Reals standard = standard_shares(alone, beside);
  const Reals rest = standard.empty() ? by_law(feature, build) : standard;
  out.silent = standard.empty() && lawful_share(feature, build) < 0.5L;
  for (std::size_t v = 0; v < rest.size(); ++v) out.share[v] += left * rest[v];
  return out;
}

Reals Model::changed_to(const Feature& feature, const Build& build) const {
  const std::size_t n = feature.values + 1;
  Reals known(n, 0), even(n, 0);
  even_over(even, n);
  for (const Change& change : feature.changes) {
    if (!covers(change.scope, build)) continue;
    known[change.value] += Real{change.share} * (visit_.month ? ramp(change.from, *visit_.month, 1) : 1);
  }
  const Real all = sum(known);
  if (all <= 0) return even;
  const Real unlisted = pack_.rates.unlisted;
  for (std::size_t v = 0; v < n; ++v) known[v] = (1 - unlisted) * known[v] / all + unlisted * even[v];
  return known;
}

/// P(look.value | each value that may be there).
Reals Model::slips_of(const Look& look) const {
  const Feature& feature = pack_.features[look.feature];
  std::size_t doubt = look.sure == "sure" ? 0 : look.sure == "probable" ? 1 : 2;
  if (look.how == "told" || look.how == "photo") doubt = std::min<std::size_t>(doubt + 1, 2);
  const Real rates[] = {pack_.rates.sure, pack_.rates.probable, pack_.rates.guess};
  const Real rate =
      rates[doubt] * (feature.slip ? Real{*feature.slip} / rates[0] : 1);  // the doubtful rates keep step with "sure"
  const auto alike = [&](std::size_t a, std::size_t b) {
    return std::any_of(feature.looks_like.begin(), feature.looks_like.end(), [&](const auto& pair) {
      return (pair.first == a && pair.second == b) || (pair.first == b && pair.second == a);
    });
  };
  Reals out;
  for (std::size_t there = 0; there <= feature.values; ++there) {
    Real others = 0;
    bool any = false;
    for (std::size_t v = 0; v <= feature.values; ++v) {
      if (v == there) continue;
      others += alike(there, v) ? Real{pack_.rates.look_alike} : 1;
      any = any || alike(there, v);
    }
    const Real slip = any ? std::min(2 * rate, Real{0.6}) : rate;
    const Real weight = alike(there, look.value) ? Real{pack_.rates.look_alike} : 1;
    out.push_back(there == look.value ? 1 - slip : slip * weight / others);
  }
  return out;
}

void Model::list_units() {
  for (std::size_t i = 0; i < visit_.looks.size(); ++i) {
    const auto assembly = pack_.features[visit_.looks[i].feature].assembly;
    const auto same =
        std::find_if(units_.begin(), units_.end(), [&](const Unit& unit) { return assembly && unit.assembly == assembly; });
    if (same == units_.end()) {
      units_.push_back({assembly, {i}});
    } else {
      same->looks.push_back(i);
    }
  }
}

}  // namespace exworks::test::oracle
