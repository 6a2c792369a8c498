#include "engine/infer/posterior.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/log_weight.hpp"
#include "engine/evidence/identity.hpp"

namespace exworks {

namespace {

constexpr double out_of_sight = 1e-16;  // of all odds: no single observation left out lifts such a cell into any printed figure

class Inference {
 public:
  Inference(const Tables& tables, const Evidence& evidence) : t_(tables), e_(evidence), prior_(prior_of(tables, evidence.country)) {}

  Posterior run() {
    units();
    branches();
    for (Group& g : p_.groups) g.weigh(p_.units, p_.targets);
    weigh_cells();
    combine();
    return std::move(p_);
  }

 private:
  using Passed = std::vector<std::optional<std::size_t>>;  ///< [feature]: see Branch::edges_passed

  void units() {
    for (std::size_t a = 0; a < t_.assemblies.size(); ++a) {
      std::vector<FeatureLikelihood> features;
      for (const Seen& s : e_.seen) {
        if (t_.features[s.feature].assembly == a) features.emplace_back(t_, s.feature, &s.given, e_.inspected);
      }
      if (!features.empty()) p_.units.emplace_back(t_, a, std::move(features), e_.inspected);
    }
    for (const Seen& s : e_.seen) {
      if (t_.features[s.feature].assembly) continue;
      std::vector<FeatureLikelihood> one;
      one.emplace_back(t_, s.feature, &s.given, e_.inspected);
      p_.units.emplace_back(t_, std::nullopt, std::move(one), e_.inspected);
    }
    p_.targets.resize(p_.units.size());
    target_index_.resize(p_.units.size());
    p_.groups = find_groups(t_, p_.units, e_.inspected);
  }

  void branches() {
    const Passed by_dates(t_.features.size());
    if (!e_.identity) return branch(false, by_dates, 0.0, {});
    const IdentityLikelihood& identity = *e_.identity_says;
    const double error = e_.numbers[*e_.identity].not_own;
    if (e_.given.own_number.value_or(true)) own_branches(e_.numbers[*e_.identity], identity, e_.given.own_number ? 0.0 : std::log1p(-error));
    if (!e_.given.own_number.value_or(false)) branch(false, by_dates, (e_.given.own_number ? 0.0 : std::log(error)) + std::log(identity.stranger), {});
  }

  /// Ways of reading the number whose serials pass other changeovers are different worlds.
  void own_branches(const NumberRead& read, const IdentityLikelihood& identity, double log_weight) {
    std::map<Passed, std::vector<double>> alike;
    for (std::size_t i = 0; i < read.readings.size(); ++i) {
      std::vector<double>& match = alike[edges_passed(read.readings[i])];
      match.resize(t_.builds(), 0.0);
      for (std::size_t b = 0; b < match.size(); ++b) match[b] += identity.by_reading[i][b];
    }
    for (const auto& [passed, match] : alike) branch(true, passed, log_weight, match);
  }

  /// Where figures could not be read, so that a changeover may or may not have been passed: by its date.
  Passed edges_passed(const FormReading& reading) const {
    Passed out(t_.features.size());
    for (std::size_t f = 0; reading.serial && f < t_.features.size(); ++f) {
      const auto& edges = t_.features[f].number_edges;
      const auto passed = [&](std::int64_t serial) { return static_cast<std::size_t>(std::upper_bound(edges.begin(), edges.end(), serial) - edges.begin()); };
      if (!edges.empty() && passed(*reading.serial) == passed(reading.serial_to)) out[f] = passed(*reading.serial);
    }
    return out;
  }

  /// `match`: [build] P(number | its own); empty where no number speaks.
  void branch(bool own, const Passed& passed, double log_weight, const std::vector<double>& match) {
    Branch b;
    b.own_number = own;
    b.edges_passed = passed;
    for (std::size_t u = 0; u < p_.units.size(); ++u) b.target_of.push_back(targets_of(u, b));
    for (Group& g : p_.groups) {
      auto& row = b.combination_of.emplace_back();
      for (std::size_t c = 0; c < t_.cells(); ++c) {
        std::vector<std::uint32_t> targets;
        for (std::size_t u : g.units()) targets.push_back(b.target_of[u][c]);
        row.push_back(g.combination_of(c, std::move(targets)));
      }
    }
    p_.branches.push_back(std::move(b));
    factors_.push_back(build_factors(match));
    log_weight_.push_back(log_weight);
  }

  std::vector<std::uint32_t> targets_of(std::size_t u, const Branch& branch) {
    const Unit& unit = p_.units[u];
    std::vector<std::uint32_t> out;
    out.reserve(t_.cells());
    // Most cells repeat a combination: found by a dense key before the columns themselves are compared.
    constexpr std::uint32_t none = ~0u;
    const AssemblyInfo* a = unit.assembly() ? &t_.assemblies[*unit.assembly()] : nullptr;
    const FeatureInfo& first = unit.features().front().info();
    const std::size_t donor_groups = a != nullptr ? a->donors.size() : 1;
    const bool by_number = std::any_of(unit.features().begin(), unit.features().end(), [&](const FeatureLikelihood& f) { return branch.edges_passed[f.index()].has_value(); });
    std::vector<std::uint32_t> by_key((a != nullptr ? a->columns.size() : first.columns.size()) * donor_groups, none);
    for (std::size_t c = 0; c < t_.cells(); ++c) {
      const std::size_t group = a != nullptr ? a->donor_group[t_.routes[t_.cell_route[c]].variant] : 0;
      const std::size_t key = (a != nullptr ? a->column_of[c] : first.column_of[c]) * donor_groups + group;
      if (!by_number && by_key[key] != none) {
        out.push_back(by_key[key]);
        continue;
      }
      std::vector<ColumnIndex> columns;
      for (const FeatureLikelihood& f : unit.features()) columns.push_back(branch.column(t_, f.index(), CellIndex{c}));
      Unit::Target target = unit.target_of(c, std::move(columns));
      const auto [at, fresh] = target_index_[u].try_emplace(target, static_cast<std::uint32_t>(p_.targets[u].size()));
      if (fresh) p_.targets[u].push_back(std::move(target));
      by_key[key] = at->second;
      out.push_back(at->second);
    }
    return out;
  }

  /// [build]: what speaks of the build beside what was seen: how many were made, the number, papers, and what is given.
  std::vector<double> build_factors(const std::vector<double>& match) const {
    std::vector<double> out(t_.builds(), 0.0);
    for (const RouteInfo& route : t_.routes) {
      for (std::size_t i = 0; i < route.builds(); ++i) {
        const std::size_t build = route.first_build + i;
        if (prior_[build] <= 0 || !e_.given.allows(route, route.first + static_cast<int>(i))) continue;
        out[build] = prior_[build] * (match.empty() ? 1.0 : match[build]) * (e_.document_weight.empty() ? 1.0 : e_.document_weight[build]);
      }
    }
    return out;
  }

  /// Each build at each offset of the pack's dates, with the cell that it looks like: act(build, cell, what else speaks of it x share of the offset).
  template <class Act>
  void each_look(std::size_t branch, Act&& act) const {
    const std::vector<double>& shares = t_.rates.offset_share;
    for (const RouteInfo& route : t_.routes) {
      for (std::size_t i = 0; i < route.builds(); ++i) {
        const double p = factors_[branch][route.first_build + i];
        for (std::size_t d = 0; p > 0 && d < shares.size(); ++d) act(route.first_build + i, t_.cell_of[route.looks_like(i, offset_months(t_.rates, d))], p * shares[d]);
      }
    }
  }

  /// [branch][level][cell]: log P(everything, and this cell, at this level)
  void weigh_cells() {
    for (std::size_t b = 0; b < p_.branches.size(); ++b) {
      std::vector<double> cell(t_.cells(), 0.0);
      each_look(b, [&](std::size_t, std::size_t c, double p) { cell[c] += p; });
      auto& levels = cell_log_.emplace_back();
      for (std::size_t level = 0; level < t_.rates.alteration.size(); ++level) {
        auto& row = levels.emplace_back(t_.cells(), log_zero);
        for (std::size_t c = 0; c < row.size(); ++c) {
          if (cell[c] <= 0) continue;
          row[c] = log_weight_[b] + std::log(cell[c]) + std::log(t_.rates.alteration_share[level]);
          for (std::size_t g = 0; g < p_.groups.size(); ++g) row[c] += p_.groups[g].log_p(level, p_.branches[b].combination_of[g][c]);
        }
      }
      cell_weight_.push_back(std::move(cell));
    }
  }

  void combine() {
    std::vector<double> sums;
    for (const auto& levels : cell_log_) {
      for (const auto& row : levels) sums.push_back(log_sum(row));
    }
    p_.log_evidence = log_sum(sums);
    p_.level.assign(t_.rates.alteration.size(), 0.0);
    p_.build.assign(t_.builds(), 0.0);
    if (p_.log_evidence == log_zero) return nothing_fits();
    for (std::size_t b = 0; b < p_.branches.size(); ++b) {
      Branch& branch = p_.branches[b];
      branch.cell_mass.assign(t_.cells(), 0.0);
      for (std::size_t level = 0; level < p_.level.size(); ++level) {
        for (std::size_t c = 0; c < t_.cells(); ++c) place(b, level, c, std::exp(cell_log_[b][level][c] - p_.log_evidence));
      }
      each_look(b, [&](std::size_t build, std::size_t c, double p) {
        if (p > 0) p_.build[build] += branch.cell_mass[c] * p / cell_weight_[b][c];
      });
      if (e_.identity) p_.own_number = p_.own_number.value_or(0.0) + (branch.own_number ? branch.mass : 0.0);
    }
  }

  void place(std::size_t b, std::size_t level, std::size_t cell, double mass) {
    p_.branches[b].cell_mass[cell] += mass;
    p_.branches[b].mass += mass;
    p_.level[level] += mass;
    if (mass > out_of_sight) p_.active.push_back({static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(level), static_cast<std::uint32_t>(cell), mass});
  }

  void nothing_fits() {
    p_.impossible = true;
    p_.build = t_.prior;
    for (Branch& b : p_.branches) b.cell_mass.assign(t_.cells(), 0.0);
    for (std::size_t level = 0; level < p_.level.size(); ++level) {
      for (std::size_t c = 0; c < t_.cells(); ++c) place(0, level, c, t_.cell_prior[c] * t_.rates.alteration_share[level]);
    }
    if (e_.identity) p_.own_number = 0.0;
  }

  const Tables& t_;
  const Evidence& e_;
  std::vector<double> prior_;
  Posterior p_;
  std::vector<std::map<Unit::Target, std::uint32_t>> target_index_;  // [unit]
  std::vector<double> log_weight_;                                   // [branch]
  std::vector<std::vector<double>> factors_, cell_weight_;           // [branch][build], [branch][cell]
  std::vector<std::vector<std::vector<double>>> cell_log_;           // [branch][level][cell]
};

}  // namespace

ColumnIndex Branch::column(const Tables& tables, FeatureIndex feature, CellIndex cell) const {
  const FeatureInfo& info = tables.features[feature];
  return edges_passed[feature] ? info.column_by_number[*edges_passed[feature]][cell] : info.column_of[cell];
}

std::vector<std::vector<double>> Posterior::combination_mass(std::size_t group) const {
  std::vector<std::vector<double>> out(level.size(), std::vector<double>(groups[group].combinations().size(), 0.0));
  for (const Active& a : active) out[a.level][branches[a.branch].combination_of[group][a.cell]] += a.mass;
  return out;
}

std::pair<std::size_t, std::size_t> Posterior::group_of(std::size_t unit) const {
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const auto& units_of = groups[g].units();
    const auto at = std::find(units_of.begin(), units_of.end(), unit);
    if (at != units_of.end()) return {g, static_cast<std::size_t>(at - units_of.begin())};
  }
  return {0, 0};
}

std::vector<std::vector<double>> Posterior::target_mass(std::size_t unit) const {
  std::vector<std::vector<double>> out(units[unit].scenarios(), std::vector<double>(targets[unit].size(), 0.0));
  const auto [g, position] = group_of(unit);
  const Group& group = groups[g];
  const auto mass = combination_mass(g);
  for (std::size_t l = 0; l < mass.size(); ++l) {
    for (std::size_t c = 0; c < mass[l].size(); ++c) {
      if (mass[l][c] <= 0) continue;
      const auto& sets = group.sets_of(c);
      for (std::size_t k = 0; k < sets.size(); ++k) out[units[unit].index(group.scenario(l, position, sets[k]))][group.combinations()[c].targets[position]] += mass[l][c] * group.had(l, c, k);
    }
  }
  return out;
}

std::vector<double> Posterior::column_mass(const Tables& tables, FeatureIndex feature) const {
  std::vector<double> out(tables.features[feature].columns.size(), 0.0);
  for (const Branch& b : branches) {
    for (std::size_t c = 0; c < tables.cells(); ++c) {
      if (b.cell_mass[c] > 0) out[b.column(tables, feature, CellIndex{c})] += b.cell_mass[c];
    }
  }
  return out;
}

Posterior infer(const Tables& tables, const Evidence& evidence) { return Inference(tables, evidence).run(); }

std::vector<double> prior_of(const Tables& tables, const std::string& country) {
  if (country.empty()) return tables.prior;
  std::vector<double> out = tables.prior;
  double sold_there = 0;
  const auto each = [&](auto&& act) {
    for (const RouteInfo& r : tables.routes) {
      if (tables.axes.markets[r.market].country != country) continue;
      for (std::size_t i = 0; i < r.builds(); ++i) act(r.first_build + i);
    }
  };
  each([&](std::size_t b) { sold_there += tables.prior[b]; });
  if (sold_there <= 0) return out;
  for (double& p : out) p *= 1 - tables.rates.local;
  each([&](std::size_t b) { out[b] += tables.rates.local * tables.prior[b] / sold_there; });
  return out;
}

}  // namespace exworks
