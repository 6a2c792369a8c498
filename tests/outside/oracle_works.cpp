#include "oracle_works.hpp"

#include <algorithm>

namespace exworks::test::oracle {

namespace {

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

Real asked(const SmallPack& pack, const Feature& feature, std::size_t line, const Build& build) {
  const Law& law = pack.laws[feature.laws[line].first];
  const std::string kind = pack.classes.empty() ? "car" : pack.classes[pack.variants[build.variant].body];
  const bool binds = pack.markets[build.market].country == law.country &&
                     std::find(law.classes.begin(), law.classes.end(), kind) != law.classes.end();
  return binds ? 0.95L * in_force(law, build.month) : 0;
}

/// The shares of a build that no standard fact covers: legal lines in their order, and the rest even. Nothing where they take
/// less than half.
Reals by_law(const SmallPack& pack, const Feature& feature, const Build& build) {
  Reals out(feature.values + 1, 0);
  Real left = 1;
  for (std::size_t i = 0; i < feature.laws.size(); ++i) {
    const Real taken = std::min(left, asked(pack, feature, i, build));
    out[feature.laws[i].second] += taken;
    left -= taken;
  }
  if (1 - left < 0.5L) return {};
  const Reals even = even_over_works_values(feature);
  for (std::size_t v = 0; v < out.size(); ++v) out[v] += left * even[v];
  return out;
}

/// The window, so many months wider at both ends.
std::optional<Window> wider(const std::optional<Window>& edge, int months) {
  if (!edge) return edge;
  return Window{edge->first - months, edge->last + months};
}

/// Share of the month that is past an edge which lies within so many months of where it is written, or anywhere within a year.
Real past(const PackRates& rates, const std::optional<Window>& edge, int within, int month, Real absent) {
  const Real wrong = rates.wrong_year;
  return (1 - wrong) * ramp(wider(edge, within), month, absent) + wrong * ramp(wider(edge, 12), month, absent);
}

/// How much of the month a fact holds, as written or as far as its dates can be trusted. A changeover that is known by number is passed or not;
/// both edges name the first vehicle after the change.
Real presence(const PackRates& rates, const Fact& fact, int month, std::optional<Serial> serial, bool as_written) {
  const auto side = [&](const std::optional<Window>& edge, const std::optional<Serial>& number, Real absent) -> Real {
    if (serial && number) return *serial >= *number ? 1 : 0;
    if (as_written) return ramp(edge, month, absent);
    return past(rates, edge, rates.edge_months[number ? 0 : fact.backing], month, absent);
  };
  return side(fact.from, fact.from_number, 1) * (1 - side(fact.to, fact.to_number, 0));
}

}  // namespace

Reals even_over_works_values(const Feature& feature) {
  Reals out(feature.values + 1, 0);
  for (const Fact& fact : feature.facts) out[fact.value] = 1;
  for (const auto& [law, value] : feature.laws) out[value] = 1;
  out.back() = 0;
  if (sum(out) <= 0) std::fill(out.begin(), out.end() - 1, Real{1});
  const Real all = sum(out);
  for (Real& share : out) share /= all;
  return out;
}

std::optional<Works> said(const SmallPack& pack, const Feature& feature, const Build& build, std::optional<Serial> serial) {
  Works out{Reals(feature.values + 1, 0), Voice::spoken};
  if (!covers(pack, feature.applies, build)) {
    out.share[feature.elsewhere.value_or(feature.values)] = 1;
    out.voice = Voice::no_such;
    return out;
  }
  Reals alone(feature.values + 1, 0), beside(feature.values + 1, 0);
  bool standard_in_force = false;
  for (const Fact& fact : feature.facts) {
    if (!covers(pack, fact.scope, build)) continue;
    standard_in_force =
        standard_in_force || (fact.fitted == "standard" && presence(pack.rates, fact, build.month, serial, true) > 0);
    Reals& shares = fact.fitted != "standard" ? out.share : fact.share ? beside : alone;
    shares[fact.value] += presence(pack.rates, fact, build.month, serial, false) * Real{fact.share.value_or(1)};
  }
  // What only a doubtful date reaches is no knowledge.
  const Reals standard = standard_in_force ? standard_shares(alone, beside) : Reals{};
  const Reals rest = standard.empty() ? by_law(pack, feature, build) : standard;
  if (rest.empty()) return std::nullopt;  // options alone don't say what the others have
  const Real optional = sum(out.share);
  for (Real& share : out.share) share *= optional > 0.98L ? 0.98L / optional : 1;
  const Real left = 1 - std::min(optional, Real{0.98L});
  for (std::size_t v = 0; v < rest.size(); ++v) out.share[v] += left * rest[v];
  return out;
}

}  // namespace exworks::test::oracle
