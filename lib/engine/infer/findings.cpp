#include "engine/infer/findings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

namespace {

constexpr double negligible = 1e-14;  // of all odds: such builds change no figure that a double can show

/// P(o | T) / P(o | not T), from the odds of both with the observation and without it. Where only one of them could be before looking, the
/// observation can't tell them apart: 1.
double likelihood_ratio(double type, double type_before, double later, double later_before) {
  if (type_before <= 0 || later_before <= 0) return 1;
  const double for_later = later / later_before;
  return for_later > 0 ? type / type_before / for_later : INFINITY;
}

/// Adds up one feature's finding over targets and scenarios.
class Gatherer {
 public:
  Gatherer(const Evidence& evidence, const Unit& unit, std::size_t position) : unit_(unit), position_(position), f_(unit.features()[position]) {
    out_.feature = f_.index();
    out_.there.assign(f_.values(), 0.0);
    out_.works.assign(f_.values(), 0.0);
    const auto at = std::find_if(evidence.seen.begin(), evidence.seen.end(), [&](const Seen& s) { return s.feature == out_.feature; });
    out_.seen = static_cast<std::size_t>(at - evidence.seen.begin());
    noted_.assign(f_.values(), false);
    for (std::size_t v : at->left_open) noted_[v] = true;
  }

  void add(const Unit::Target& target, Scenario s, double mass) {
    double type = 0, later = 0;
    unit_.each_outcome(target, s, position_, std::nullopt, unit_.log(target, s), [&](std::size_t v, double t, double l, Cause cause, std::size_t index) {
      const double seen = mass * f_.given()[v];
      type_before_ += mass * t;
      later_before_ += mass * l;
      type += seen * t;
      later += seen * l;
      out_.there[v] += seen * (t + l);
      if (cause == Cause::as_built) out_.p_untouched += seen * t;
      if (l > 0) explained_[{cause, cause == Cause::donor ? 0 : index}] += seen * l;
    });
    out_.p_type += type;
    later_ += later;
    const Column& column = f_.info().columns[target.columns[position_]];
    for (std::size_t v = 0; v < out_.works.size(); ++v) out_.works[v] += mass * column.share[v];
    if (column.silent) {
      out_.p_silent += mass;
    } else {
      out_.p_type_spoken += type;
      out_.p_later_spoken += later;
    }
  }

  FeatureFinding result() {
    out_.p_silent = std::min(out_.p_silent, 1.0);  // a sum of rounded masses
    out_.p_before = type_before_ / (type_before_ + later_before_);
    out_.likelihood_ratio = likelihood_ratio(out_.p_type, type_before_, later_, later_before_);
    for (std::size_t v = 0; v < noted_.size(); ++v) out_.p_misread += noted_[v] ? 0.0 : out_.there[v];
    for (const auto& [what, p] : explained_) out_.explanations.push_back({what.first, what.second, later_ > 0 ? p / later_ : 0.0});
    std::stable_sort(out_.explanations.begin(), out_.explanations.end(), [](const CauseOdds& a, const CauseOdds& b) { return a.p > b.p; });
    return std::move(out_);
  }

 private:
  const Unit& unit_;
  std::size_t position_;
  const FeatureLikelihood& f_;
  FeatureFinding out_;
  std::vector<bool> noted_;
  double later_ = 0, type_before_ = 0, later_before_ = 0;
  std::map<std::pair<Cause, std::size_t>, double> explained_;
};

}  // namespace

TypeSplit split_type(const Unit& unit, const Unit::Target& target, Scenario s, std::size_t position, std::optional<std::size_t> without, double log_p) {
  TypeSplit out;
  const std::vector<double>& given = unit.features()[position].given();
  unit.each_outcome(target, s, position, without, log_p, [&](std::size_t v, double type, double later, Cause, std::size_t) {
    out.type_before += type;
    out.later_before += later;
    out.type += given[v] * type;
    out.later += given[v] * later;
  });
  return out;
}

std::vector<FeatureFinding> feature_findings(const Evidence& evidence, const Posterior& posterior) {
  std::vector<FeatureFinding> out;
  for (std::size_t u = 0; u < posterior.units.size(); ++u) {
    const Unit& unit = posterior.units[u];
    const auto mass = posterior.target_mass(u);
    for (std::size_t i = 0; i < unit.features().size(); ++i) {
      Gatherer gatherer(evidence, unit, i);
      for (std::size_t s = 0; s < mass.size(); ++s) {
        for (std::size_t t = 0; t < mass[s].size(); ++t) {
          if (mass[s][t] > negligible) gatherer.add(posterior.targets[u][t], unit.scenario(s), mass[s][t]);
        }
      }
      out.push_back(gatherer.result());
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
    const Unit& unit = posterior.units[u];
    if (!unit.assembly()) continue;
    const AssemblyInfo& a = tables.assemblies[*unit.assembly()];
    AssemblyFinding f;
    f.assembly = *unit.assembly();
    std::vector<std::vector<double>> by_column(a.donors.size(), std::vector<double>(a.columns.size(), 0.0));
    std::map<std::size_t, double> outside;
    const auto mass = posterior.target_mass(u);
    for (std::size_t s = 0; s < mass.size(); ++s) {
      std::map<std::size_t, Unit::DonorOdds> donors;  // by donor group
      for (std::size_t t = 0; t < mass[s].size(); ++t) {
        if (mass[s][t] <= negligible) continue;
        const Unit::Target& target = posterior.targets[u][t];
        const double log_p = unit.log(target, unit.scenario(s));
        unit.each_way_but_donors(target, unit.scenario(s), {}, [&](Way way, double log_weight) {
          const double p = mass[s][t] * std::exp(log_weight - log_p);
          if (way.kind == Way::Kind::own) return;
          f.p_replaced += p;
          if (way.kind == Way::Kind::outside) outside[way.index] += p;
          else f.p_unnamed += p;
        });
        const std::size_t group = unit.donor_group(target);
        f.p_replaced += donors.try_emplace(group, unit, unit.scenario(s), group).first->second.add(target, mass[s][t], log_p);
      }
      for (const auto& [group, odds] : donors) odds.take(by_column[group]);
    }
    f.donor.assign(tables.builds(), 0.0);
    if (f.p_replaced > 0) {
      for (auto& row : by_column) {
        for (double& p : row) p /= f.p_replaced;
      }
      f.p_unnamed /= f.p_replaced;
      spread_donors(tables, a, by_column, f.donor);
      for (const auto& [change, p] : outside) f.outside.emplace_back(change, p / f.p_replaced);
    }
    out.push_back(std::move(f));
  }
  return out;
}

std::vector<ConversionFinding> conversion_findings(const Tables& tables, const Evidence& evidence, const Posterior& posterior) {
  std::vector<ConversionFinding> out(tables.conversions.size());
  for (std::size_t g = 0; g < posterior.groups.size(); ++g) {
    const Group& group = posterior.groups[g];
    if (group.conversions().empty()) continue;
    for (std::size_t c : group.conversions()) out[c].seen = true;
    const auto mass = posterior.combination_mass(g);
    for (std::size_t l = 0; l < mass.size(); ++l) {
      for (std::size_t c = 0; c < mass[l].size(); ++c) {
        if (mass[l][c] <= 0) continue;
        const auto& sets = group.sets_of(c);
        for (std::size_t k = 0; k < sets.size(); ++k) {
          for (std::size_t i = 0; i < group.conversions().size(); ++i) {
            if ((sets[k] >> i & 1u) != 0) out[group.conversions()[i]].p += mass[l][c] * group.had(l, c, k);
          }
        }
      }
    }
  }
  // Nothing speaks of the others but what they are done to, and how much the vehicle was altered.
  for (std::size_t c = 0; c < out.size(); ++c) {
    if (out[c].seen) continue;
    const ConversionInfo& info = tables.conversions[c];
    const double share = possible_share(info.share, info.from, evidence.inspected);
    for (const Active& a : posterior.active) {
      if (info.scope[tables.cell_route[a.cell]]) out[c].p += a.mass * at_level(share, tables.rates.alteration[a.level]);
    }
  }
  return out;
}

}  // namespace exworks
