#include "oracle_ways.hpp"

namespace exworks::test::oracle {

namespace {

bool may_donate(const Assembly& assembly, std::size_t variant, std::size_t donor) {
  bool named = false;
  for (const Interchange& row : assembly.rows) {
    if (!row.variants[variant]) continue;
    named = true;
    if (row.donors[donor]) return true;
  }
  return !named;
}

/// How far a change was possible by the day of the inspection.
Real possible(const PackTables& tables, const std::optional<Window>& from) {
  return tables.month() ? ramp(from, *tables.month(), 1) : 1;
}

/// Donors of the family with their weights, which sum to 1.
std::vector<Way> donors(const PackTables& tables, std::size_t a, std::size_t build) {
  const Builds& builds = tables.builds();
  std::vector<Way> out;
  Real all = 0;
  for (std::size_t d = 0; d < builds.list.size(); ++d) {
    if (!may_donate(tables.pack().assemblies[a], builds.list[build].variant, builds.list[d].variant)) continue;
    const bool later = tables.mean_month(a, d) > tables.mean_month(a, build) + 1e-9L;
    const Real weight = builds.p[d] * (later ? Real{tables.pack().rates.later_weight} : 1);
    out.push_back({weight, d, {}, false});
    all += weight;
  }
  for (Way& way : out) way.p /= all;
  return out;
}

/// The value that an outside donor brings, when it names the feature.
std::optional<std::size_t> brought(const PackTables& tables, const Way& way, std::size_t feature) {
  if (!way.outside) return std::nullopt;
  for (const auto& [set, value] : tables.pack().outsides[*way.outside].sets) {
    if (set == feature) return value;
  }
  return std::nullopt;
}

/// An outside donor that nobody named: `other` more often than any named value; a serial may be any.
Shares unnamed(const Feature& feature, const PackRates& rates) {
  Shares out{};
  const Real n = static_cast<Real>(feature.values), other = feature.of_number ? 1 / (n + 1) : Real{rates.outside_other};
  for (std::size_t v = 0; v < feature.values; ++v) out.at(v) = (1 - other) / n;
  out.at(feature.values) = other;
  return out;
}

/// Changed by itself, at rate e: a known change, a value of the family, or one from outside.
void add_by_itself(const Feature& feature, const Changed& changed, Real e, std::vector<Fate>& out) {
  for (std::size_t j = 0; j < changed.known.size(); ++j) {
    Fate known{{Reason::Kind::known_change, j}, {}};
    known.there.at(feature.changes[j].value) = e * changed.known[j];
    if (changed.known[j] > 0) out.push_back(known);
  }
  Fate family{{Reason::Kind::family_by_itself, 0}, {}}, outside{{Reason::Kind::outside_by_itself, 0}, {}};
  for (std::size_t v = 0; v < changed.family.size(); ++v) family.there.at(v) = e * changed.family[v];
  outside.there.at(feature.values) = e * changed.outside;
  out.push_back(family);
  out.push_back(outside);
}

/// Before any conversion.
std::vector<Fate> without_conversions(const PackTables& tables, std::size_t f, const Works& own, const Changed& own_changed,
                                      const Way& way, Real e) {
  const Feature& feature = tables.feature(f);
  if (way.unnamed) return {{{Reason::Kind::unnamed_donor, 0}, unnamed(feature, tables.pack().rates)}};
  if (way.donor) {
    Fate out{{Reason::Kind::donor, 0}, {}};
    const Reals& changed = tables.changed_all(f, *way.donor);
    const Reals& fitted = tables.works(f, *way.donor).share;
    for (std::size_t v = 0; v < fitted.size(); ++v) out.there.at(v) = (1 - e) * fitted[v] + e * changed[v];
    return {out};
  }
  if (const auto value = brought(tables, way, f)) {
    Fate out{{Reason::Kind::outside_donor, *way.outside}, {}};
    out.there.at(*value) = 1;
    return {out};
  }
  std::vector<Fate> out{{{Reason::Kind::as_it_was, 0}, {}}};
  for (std::size_t v = 0; v < own.share.size(); ++v) out.front().there.at(v) = (1 - e) * own.share[v];
  add_by_itself(feature, own_changed, e, out);
  return out;
}

}  // namespace

std::vector<Way> ways(const PackTables& tables, std::optional<std::size_t> assembly, std::size_t build, Real level) {
  if (!assembly) return {Way{}};
  const SmallPack& pack = tables.pack();
  const Real replaced = at_level(level, pack.assemblies[*assembly].replaced.value_or(pack.rates.replaced));
  const Real nobodys = pack.rates.unnamed_outside;
  std::vector<Way> out{{1 - replaced, {}, {}, false}, {replaced * nobodys, {}, {}, true}};
  Real from_family = 1;
  for (std::size_t k = 0; k < pack.outsides.size(); ++k) {
    const Outside& outside = pack.outsides[k];
    if (outside.assembly != *assembly || !covers(pack, outside.scope, tables.builds().list[build])) continue;
    const Real share = Real{outside.share} * possible(tables, outside.from);
    out.push_back({replaced * (1 - nobodys) * share, {}, k, false});
    from_family -= share;
  }
  for (Way way : donors(tables, *assembly, build)) {
    way.p *= replaced * (1 - nobodys) * from_family;
    out.push_back(way);
  }
  return out;
}

Real converted(const PackTables& tables, std::size_t index, std::size_t build, Real level) {
  const Conversion& conversion = tables.pack().conversions[index];
  if (!covers(tables.pack(), conversion.scope, tables.builds().list[build])) return 0;
  return at_level(level, Real{conversion.share} * possible(tables, conversion.from));
}

std::vector<Fate> fates(const PackTables& tables, std::size_t f, const Works& own, const Changed& changed, const Way& way, Had had,
                        Real level) {
  const Feature& feature = tables.feature(f);
  // A serial is stamped once: how much a vehicle was altered is no matter to it.
  const Real e = at_level(feature.of_number ? 1 : level, altered(tables.pack(), feature));
  std::vector<Fate> out = without_conversions(tables, f, own, changed, way, e);
  for (std::size_t j = 0; j < tables.pack().conversions.size(); ++j) {
    for (const Sets& sets : tables.pack().conversions[j].sets) {
      if (sets.feature != f || (had >> j & 1U) == 0) continue;
      for (Fate& fate : out) {
        for (Real& p : fate.there) p *= 1 - Real{sets.surely};
      }
      out.push_back({{Reason::Kind::conversion, j}, {}});
      out.back().there.at(sets.value) = sets.surely;
    }
  }
  return out;
}

}  // namespace exworks::test::oracle
