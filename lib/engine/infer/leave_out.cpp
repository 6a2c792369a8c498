#include "engine/infer/leave_out.hpp"

#include <cmath>

namespace exworks {

namespace {

constexpr double negligible = 1e-14;  // of all odds: leaving out one look makes no more than ten thousand times as much of it

/// Of one feature: P(the rest of the unit | target, scenario) over P(all of it), and P(T) and P(not T) where the pack speaks.
struct Shares {
  double rest = 0, type = 0, later = 0;
};

/// [level][combination] of a group; only those that have mass are worked out.
template <class Value>
using ByCombination = std::vector<std::vector<Value>>;

class LeaveOut {
 public:
  LeaveOut(const Tables& t, const Posterior& p, const std::vector<FeatureFinding>& findings) : t_(t), p_(p), findings_(findings) {
    for (std::size_t g = 0; g < p.groups.size(); ++g) mass_.push_back(p.combination_mass(g));
    for (const FeatureFinding& f : findings) place(f.feature);
    for (std::size_t f = 0; f < findings.size(); ++f) shares_.push_back(mean(place_[f].group, [&](std::size_t l, std::size_t c, std::uint32_t set) { return split(f, l, c, set, std::nullopt); }));
  }

  LeftOut run(std::size_t f) const {
    LeftOut out{std::vector<double>(t_.axes.variants.size(), 0.0), std::vector<double>(findings_.size(), 0.0), std::vector<double>(findings_.size(), 0.0)};
    std::vector<ByCombination<double>> mass;  // [group], reweighed
    for (const auto& m : mass_) mass.emplace_back(m.size(), std::vector<double>(m.front().size(), 0.0));
    double total = 0;
    for (const Active& a : p_.active) {
      const Branch& branch = p_.branches[a.branch];
      const double m = a.mass * shares_[f][a.level][branch.combination_of[place_[f].group][a.cell]].rest;
      total += m;
      out.variants[t_.routes[t_.cell_route[a.cell]].variant] += m;
      for (std::size_t g = 0; g < mass.size(); ++g) mass[g][a.level][branch.combination_of[g][a.cell]] += m;
    }
    for (std::size_t g = 0; g < findings_.size(); ++g) {
      if (g == f) continue;
      if (place_[g].group == place_[f].group) add(mass_[place_[g].group], together(f, g), g, out);
      else add(mass[place_[g].group], shares_[g], g, out);
    }
    for (auto* row : {&out.variants, &out.type, &out.later}) {
      for (double& x : *row) x /= total;
    }
    out.type[f] = findings_[f].p_type_spoken;
    out.later[f] = findings_[f].p_later_spoken;
    return out;
  }

 private:
  struct Where {
    std::size_t unit = 0, position = 0, group = 0, in_group = 0;
  };
  void place(std::size_t feature) {
    for (std::size_t u = 0; u < p_.units.size(); ++u) {
      for (std::size_t i = 0; i < p_.units[u].features().size(); ++i) {
        if (p_.units[u].features()[i].index() != feature) continue;
        const auto [g, in_group] = p_.group_of(u);
        place_.push_back({u, i, g, in_group});
      }
    }
  }

  /// `without`: another feature of the same unit whose observation is left out as well.
  Shares split(std::size_t f, std::size_t level, std::size_t combination, std::uint32_t set, std::optional<std::size_t> without) const {
    const Where& w = place_[f];
    const Unit& unit = p_.units[w.unit];
    const Group& group = p_.groups[w.group];
    const Unit::Target& target = p_.targets[w.unit][group.combinations()[combination].targets[w.in_group]];
    const Scenario s = group.scenario(level, w.in_group, set);
    const TypeSplit x = split_type(unit, target, s, w.position, without, unit.log(target, s));
    const bool silent = unit.features()[w.position].info().columns[target.columns[w.position]].silent;
    return {x.type_before + x.later_before, silent ? 0.0 : x.type, silent ? 0.0 : x.later};
  }

  /// [level][combination]: the mean over the sets of conversions, by their odds.
  template <class Of>
  ByCombination<Shares> mean(std::size_t g, Of of) const {
    const Group& group = p_.groups[g];
    ByCombination<Shares> out(mass_[g].size(), std::vector<Shares>(mass_[g].front().size()));
    for (std::size_t l = 0; l < out.size(); ++l) {
      for (std::size_t c = 0; c < out[l].size(); ++c) {
        if (mass_[g][l][c] <= negligible) continue;
        const auto& sets = group.sets_of(c);
        for (std::size_t k = 0; k < sets.size(); ++k) {
          const double had = group.had(l, c, k);
          if (had <= negligible) continue;
          const Shares s = of(l, c, sets[k]);
          out[l][c].rest += had * s.rest;
          out[l][c].type += had * s.type;
          out[l][c].later += had * s.later;
        }
      }
    }
    return out;
  }

  static void add(const ByCombination<double>& mass, const ByCombination<Shares>& shares, std::size_t g, LeftOut& out) {
    for (std::size_t l = 0; l < mass.size(); ++l) {
      for (std::size_t c = 0; c < mass[l].size(); ++c) {
        out.type[g] += mass[l][c] * shares[l][c].type;
        out.later[g] += mass[l][c] * shares[l][c].later;
      }
    }
  }

  /// Features of one unit share how it was replaced, those of one group what was converted.
  ByCombination<Shares> together(std::size_t f, std::size_t g) const {
    const bool one_unit = place_[f].unit == place_[g].unit;
    return mean(place_[f].group, [&](std::size_t l, std::size_t c, std::uint32_t set) {
      if (one_unit) return split(g, l, c, set, place_[f].position);
      Shares s = split(g, l, c, set, std::nullopt);
      const double rest = split(f, l, c, set, std::nullopt).rest;
      s.type *= rest;
      s.later *= rest;
      return s;
    });
  }

  const Tables& t_;
  const Posterior& p_;
  const std::vector<FeatureFinding>& findings_;
  std::vector<ByCombination<double>> mass_;     // [group]
  std::vector<Where> place_;                    // [finding]
  std::vector<ByCombination<Shares>> shares_;   // [finding]
};

}  // namespace

std::vector<LeftOut> leave_each_out(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings) {
  const LeaveOut leave_out(tables, posterior, findings);
  std::vector<LeftOut> out;
  for (std::size_t f = 0; f < findings.size(); ++f) out.push_back(leave_out.run(f));
  return out;
}

}  // namespace exworks
