#include "engine/infer/posterior.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/log_weight.hpp"
#include "engine/evidence/identity.hpp"

namespace exworks {

ColumnIndex Branch::column(const Tables& tables, std::size_t feature, std::size_t cell) const {
  const FeatureInfo& info = tables.features[feature];
  return edges_passed[feature] ? info.column_by_number[*edges_passed[feature]][cell] : info.column_of[cell];
}

namespace {

class Inference {
 public:
  Inference(const Tables& tables, const Evidence& evidence) : t_(tables), e_(evidence) {}

  Posterior run() {
    units();
    const IdentityLikelihood* identity = e_.identity ? e_.identity_says.get() : nullptr;
    const double error = t_.rates.number_error;
    const Passed by_dates(t_.features.size());
    if (identity != nullptr) {
      if (e_.given.own_number.value_or(true)) own_branches(e_.numbers[*e_.identity], *identity, e_.given.own_number ? 0.0 : std::log1p(-error));
      if (!e_.given.own_number.value_or(false)) {
        branch(false, by_dates, (e_.given.own_number ? 0.0 : std::log(error)) + std::log(identity->stranger), nullptr);
      }
    } else {
      branch(false, by_dates, 0.0, nullptr);
    }
    combine(identity != nullptr);
    return std::move(p_);
  }

 private:
  void units() {
    for (std::size_t a = 0; a < t_.assemblies.size(); ++a) {
      std::vector<FeatureLikelihood> features;
      for (const Seen& s : e_.seen) {
        if (t_.features[s.feature].assembly == a) features.emplace_back(t_, s.feature, &s, e_.inspected);
      }
      if (!features.empty()) p_.units.emplace_back(t_, a, std::move(features), e_.inspected);
    }
    for (const Seen& s : e_.seen) {
      if (t_.features[s.feature].assembly) continue;
      std::vector<FeatureLikelihood> one;
      one.emplace_back(t_, s.feature, &s, e_.inspected);
      p_.units.emplace_back(t_, std::nullopt, std::move(one), e_.inspected);
    }
  }

  using Passed = std::vector<std::optional<std::size_t>>;  ///< [feature]: see Branch::edges_passed

  Passed edges_passed(const std::optional<std::int64_t>& serial) const {
    Passed out(t_.features.size());
    for (std::size_t f = 0; serial && f < t_.features.size(); ++f) {
      const auto& edges = t_.features[f].number_edges;
      if (!edges.empty()) out[f] = static_cast<std::size_t>(std::upper_bound(edges.begin(), edges.end(), *serial) - edges.begin());
    }
    return out;
  }

  /// Ways of reading the number whose serials pass other changeovers are different worlds.
  void own_branches(const NumberRead& read, const IdentityLikelihood& identity, double log_weight) {
    std::map<Passed, std::vector<double>> alike;
    for (std::size_t i = 0; i < read.readings.size(); ++i) {
      std::vector<double>& match = alike[edges_passed(read.readings[i].serial)];
      match.resize(t_.builds(), 0.0);
      for (std::size_t b = 0; b < match.size(); ++b) match[b] += identity.by_reading[i][b];
    }
    for (const auto& [passed, match] : alike) branch(true, passed, log_weight, &match);
  }

  void branch(bool own, const Passed& passed, double log_weight, const std::vector<double>* match) {
    Branch b;
    b.own_number = own;
    b.edges_passed = passed;
    std::vector<double> cell_log(t_.cells(), 0.0);
    for (const AssemblyLikelihood& unit : p_.units) {
      b.views.push_back(view(unit, b));
      const UnitView& v = b.views.back();
      for (std::size_t c = 0; c < cell_log.size(); ++c) cell_log[c] += v.log_p[v.target_of[c]];
    }
    weigh(log_weight, cell_log, match);
    p_.branches.push_back(std::move(b));
  }

  UnitView view(const AssemblyLikelihood& unit, const Branch& branch) const {
    UnitView v;
    std::map<AssemblyLikelihood::Target, std::uint32_t> seen;
    v.target_of.reserve(t_.cells());
    // Most cells repeat a combination: found by a dense key before the columns themselves are compared.
    constexpr std::uint32_t none = ~0u;
    const AssemblyInfo* a = unit.assembly() ? &t_.assemblies[*unit.assembly()] : nullptr;
    const FeatureInfo& first = unit.features().front().feature();
    const std::size_t groups = a != nullptr ? a->donors.size() : 1;
    const bool by_number = std::any_of(unit.features().begin(), unit.features().end(), [&](const FeatureLikelihood& f) { return branch.edges_passed[f.index()].has_value(); });
    std::vector<std::uint32_t> by_key((a != nullptr ? a->columns.size() : first.columns.size()) * groups, none);
    for (std::size_t c = 0; c < t_.cells(); ++c) {
      const std::size_t group = a != nullptr ? a->donor_group[t_.routes[t_.cell_route[c]].variant] : 0;
      const std::size_t key = (a != nullptr ? a->column_of[c] : first.column_of[c]) * groups + group;
      if (!by_number && by_key[key] != none) {
        v.target_of.push_back(by_key[key]);
        continue;
      }
      AssemblyLikelihood::Target target;
      for (const FeatureLikelihood& f : unit.features()) target.columns.push_back(branch.column(t_, f.index(), c));
      target.donor_group = group;
      if (a != nullptr) target.changes = a->columns[a->column_of[c]].changes;
      const auto [at, fresh] = seen.try_emplace(target, static_cast<std::uint32_t>(v.targets.size()));
      if (fresh) {
        v.log_p.push_back(unit.log(target));
        v.targets.push_back(std::move(target));
      }
      by_key[key] = at->second;
      v.target_of.push_back(at->second);
    }
    return v;
  }

  /// Log weights of every build of a branch, before they are normalised over all branches.
  void weigh(double log_weight, const std::vector<double>& cell_log, const std::vector<double>* match) {
    std::vector<double> logs(t_.builds(), log_zero);
    for (const RouteInfo& route : t_.routes) {
      for (std::size_t i = 0; i < route.builds(); ++i) {
        const std::size_t build = route.first_build + i;
        if (t_.prior[build] <= 0 || !e_.given.allows(route, route.first + static_cast<int>(i))) continue;
        double factor = t_.prior[build];
        if (match != nullptr) factor *= (*match)[build];
        if (!e_.document_weight.empty()) factor *= e_.document_weight[build];
        if (factor > 0) logs[build] = log_weight + std::log(factor) + cell_log[t_.cell_of[build]];
      }
    }
    build_logs_.push_back(std::move(logs));
  }

  void combine(bool with_number) {
    std::vector<double> all;
    for (const auto& logs : build_logs_) all.push_back(log_sum(logs));
    p_.log_evidence = log_sum(all);
    p_.build.assign(t_.builds(), 0.0);
    if (p_.log_evidence == log_zero) {
      p_.impossible = true;
      p_.build = t_.prior;
    }
    for (std::size_t i = 0; i < p_.branches.size(); ++i) {
      Branch& b = p_.branches[i];
      b.cell_mass.assign(t_.cells(), 0.0);
      for (std::size_t build = 0; build < t_.builds(); ++build) {
        const double m = p_.impossible ? (i == 0 ? t_.prior[build] : 0.0) : std::exp(build_logs_[i][build] - p_.log_evidence);
        if (!p_.impossible) p_.build[build] += m;
        b.cell_mass[t_.cell_of[build]] += m;
        b.mass += m;
      }
      for (UnitView& v : b.views) {
        v.mass.assign(v.targets.size(), 0.0);
        for (std::size_t c = 0; c < t_.cells(); ++c) v.mass[v.target_of[c]] += b.cell_mass[c];
      }
      if (with_number && b.own_number) p_.own_number = p_.own_number.value_or(0.0) + b.mass;
    }
    if (with_number && !p_.own_number) p_.own_number = 0.0;
  }

  const Tables& t_;
  const Evidence& e_;
  Posterior p_;
  std::vector<std::vector<double>> build_logs_;
};

}  // namespace

Posterior infer(const Tables& tables, const Evidence& evidence) { return Inference(tables, evidence).run(); }

}  // namespace exworks
