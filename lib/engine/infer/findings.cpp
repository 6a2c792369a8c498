#include "engine/infer/findings.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {
constexpr double negligible = 1e-14;  // of all odds: such builds change no figure that a double can show
}

std::pair<double, double> own_process(const FeatureLikelihood& feature, ColumnIndex column, std::size_t value) {
  const double e = feature.feature().altered;
  const double works = feature.feature().columns[column].share[value];
  const double changed = feature.changed_to(column)[value];
  // A change may by chance put back what the works fitted.
  return {(1 - e) * works + e * changed * works, e * changed * (1 - works)};
}

TypeSplit split_type(const AssemblyLikelihood& unit, const AssemblyLikelihood::Target& target, std::size_t position, double log_p) {
  const FeatureLikelihood& feature = unit.features()[position];
  const ColumnIndex column = target.columns[position];
  const std::vector<double>& works = feature.feature().columns[column].share;
  const std::size_t n = works.size();
  TypeSplit out;
  out.there.assign(n, 0.0);
  const auto add = [&](double weight, std::size_t v, double type, double later) {
    const double seen = feature.given()[v];
    out.type += weight * seen * type;
    out.later += weight * seen * later;
    out.type_before += weight * type;
    out.later_before += weight * later;
    out.there[v] += weight * seen * (type + later);
  };
  double rest = 0;
  for (std::size_t i = 0; i < unit.features().size(); ++i) {
    if (i != position) rest += unit.features()[i].log(target.columns[i]);
  }
  const double intact = std::exp(unit.log_intact() + rest - log_p);
  for (std::size_t v = 0; v < n; ++v) {
    const auto [type, later] = own_process(feature, column, v);
    add(intact, v, type, later);
    out.untouched += intact * feature.given()[v] * (1 - feature.feature().altered) * works[v];
  }
  if (const auto& donors = unit.donors(target); !donors.left.empty()) {
    const double weight = std::exp(donors.log_others[position] - log_p);
    for (std::size_t v = 0; v < n; ++v) add(weight, v, donors.left[position][v] * works[v], donors.left[position][v] * (1 - works[v]));
  }
  for (const auto& way : unit.ways(target)) {
    if (way.of_family()) continue;
    const double weight = std::exp(way.log_weight + unit.log_way(way, target, position) - log_p);
    if (weight <= 0) continue;
    const std::vector<double>& left = unit.way_values(way, target, position);
    const bool untouched_by_way = unit.leaves_alone(*way.change, position);
    for (std::size_t v = 0; v < n; ++v) {
      if (untouched_by_way) {
        const auto [type, later] = own_process(feature, column, v);
        add(weight, v, type, later);
        out.untouched += weight * feature.given()[v] * (1 - feature.feature().altered) * works[v];
      } else {
        add(weight, v, left[v] * works[v], left[v] * (1 - works[v]));
      }
    }
  }
  return out;
}

namespace {

/// P(o | T) / P(o | not T), from the odds of both with the observation and without it. Where only one of them could be before looking, the
/// observation can't tell them apart: 1.
double likelihood_ratio(double type, double type_before, double later, double later_before) {
  if (type_before <= 0 || later_before <= 0) return 1;
  const double for_later = later / later_before;
  return for_later > 0 ? type / type_before / for_later : INFINITY;
}

}  // namespace

std::vector<FeatureFinding> feature_findings(const Evidence& evidence, const Posterior& posterior) {
  std::vector<FeatureFinding> out;
  for (std::size_t u = 0; u < posterior.units.size(); ++u) {
    const AssemblyLikelihood& unit = posterior.units[u];
    for (std::size_t i = 0; i < unit.features().size(); ++i) {
      const FeatureLikelihood& feature = unit.features()[i];
      FeatureFinding f;
      f.feature = feature.index();
      f.there.assign(feature.feature().value_count(), 0.0);
      f.works.assign(feature.feature().value_count(), 0.0);
      const auto at = std::find_if(evidence.seen.begin(), evidence.seen.end(), [&](const Seen& s) { return s.feature == f.feature; });
      f.seen = static_cast<std::size_t>(at - evidence.seen.begin());
      double type_before = 0, later_before = 0, later = 0;
      for (const Branch& branch : posterior.branches) {
        const UnitView& view = branch.views[u];
        for (std::size_t t = 0; t < view.targets.size(); ++t) {
          const double mass = view.mass[t];
          if (mass < negligible) continue;
          const TypeSplit s = split_type(unit, view.targets[t], i, view.log_p[t]);
          const Column& column = feature.feature().columns[view.targets[t].columns[i]];
          f.p_type += mass * s.type;
          later += mass * s.later;
          type_before += mass * s.type_before;
          later_before += mass * s.later_before;
          f.p_untouched += mass * s.untouched;
          if (column.silent) {
            f.p_silent += mass;
          } else {
            f.p_type_spoken += mass * s.type;
            f.p_later_spoken += mass * s.later;
          }
          for (std::size_t v = 0; v < f.there.size(); ++v) {
            f.there[v] += mass * s.there[v];
            f.works[v] += mass * column.share[v];
          }
        }
      }
      f.p_silent = std::min(f.p_silent, 1.0);  // a sum of rounded masses
      f.p_before = type_before / (type_before + later_before);
      f.likelihood_ratio = likelihood_ratio(f.p_type, type_before, later, later_before);
      out.push_back(std::move(f));
    }
  }
  return out;
}

namespace {

/// Spreads the posterior of donor columns over the donor group's builds, by volume.
void spread_donors(const Tables& t, const AssemblyInfo& a, const std::vector<std::vector<double>>& by_column, std::vector<double>& donor) {
  for (std::size_t g = 0; g < by_column.size(); ++g) {
    std::vector<double> volume(a.columns.size(), 0.0);
    const auto each = [&](auto&& act) {
      for (const RouteInfo& route : t.routes) {
        if (!a.donor_variants[g][route.variant]) continue;
        for (std::size_t i = 0; i < route.builds(); ++i) act(route.first_build + i, a.column_of[t.cell_of[route.first_build + i]]);
      }
    };
    each([&](std::size_t build, std::size_t column) { volume[column] += t.prior[build]; });
    each([&](std::size_t build, std::size_t column) {
      if (volume[column] > 0) donor[build] += by_column[g][column] * t.prior[build] / volume[column];
    });
  }
}

}  // namespace

std::vector<AssemblyFinding> assembly_findings(const Tables& tables, const Posterior& posterior) {
  std::vector<AssemblyFinding> out;
  for (std::size_t u = 0; u < posterior.units.size(); ++u) {
    const AssemblyLikelihood& unit = posterior.units[u];
    if (!unit.assembly()) continue;
    const AssemblyInfo& a = tables.assemblies[*unit.assembly()];
    AssemblyFinding f;
    f.assembly = *unit.assembly();
    std::vector<std::vector<double>> by_column(a.donors.size(), std::vector<double>(a.columns.size(), 0.0));
    std::vector<double> outside(tables.changes.size(), 0.0);
    for (const Branch& branch : posterior.branches) {
      const UnitView& view = branch.views[u];
      for (std::size_t t = 0; t < view.targets.size(); ++t) {
        if (view.mass[t] < negligible) continue;
        for (const auto& way : unit.ways(view.targets[t])) {
          const double p = view.mass[t] * std::exp(way.log_weight + unit.log_way(way, view.targets[t], std::nullopt) - view.log_p[t]);
          f.p_replaced += p;
          for (const auto& [donor, share] : way.donors) by_column[view.targets[t].donor_group][donor] += p * share;
          if (way.change) outside[*way.change] += p;
        }
      }
    }
    f.donor.assign(tables.builds(), 0.0);
    if (f.p_replaced > 0) {
      for (auto& row : by_column) {
        for (double& p : row) p /= f.p_replaced;
      }
      spread_donors(tables, a, by_column, f.donor);
      for (std::size_t c = 0; c < outside.size(); ++c) {
        if (outside[c] > 0) f.outside.emplace_back(c, outside[c] / f.p_replaced);
      }
    }
    out.push_back(std::move(f));
  }
  return out;
}

}  // namespace exworks
