#include "engine/infer/leave_out.hpp"

#include <cmath>

#include "base/log_weight.hpp"

namespace exworks {

namespace {

constexpr double negligible = 1e-20;  // no single observation lifts such a combination into sight

/// Spoken shares of one observed feature by target: what P(T) is a mean of.
struct Split {
  std::vector<double> type, later;  ///< [target]
};

Split split_targets(const AssemblyLikelihood& unit, const UnitView& view, std::size_t position) {
  Split out{std::vector<double>(view.targets.size(), 0.0), std::vector<double>(view.targets.size(), 0.0)};
  for (std::size_t t = 0; t < view.targets.size(); ++t) {
    const auto& target = view.targets[t];
    if (view.mass[t] < negligible || unit.features()[position].feature().columns[target.columns[position]].silent) continue;
    const TypeSplit s = split_type(unit, target, position, view.log_p[t]);
    out.type[t] = s.type;
    out.later[t] = s.later;
  }
  return out;
}

class LeaveOut {
 public:
  LeaveOut(const Tables& t, const Evidence& e, const Posterior& p, const std::vector<FeatureFinding>& findings) : t_(t), e_(e), p_(p), findings_(findings) {
    for (std::size_t f = 0; f < findings.size(); ++f) place(f);
    for (std::size_t f = 0; f < findings.size(); ++f) {
      auto& row = splits_.emplace_back();
      for (const Branch& b : p.branches) row.push_back(split_targets(p.units[unit_[f]], b.views[unit_[f]], position_[f]));
    }
  }

  LeftOut run(std::size_t f) const {
    LeftOut out{std::vector<double>(t_.axes.variants.size(), 0.0), std::vector<double>(findings_.size(), 0.0), std::vector<double>(findings_.size(), 0.0)};
    const std::size_t u = unit_[f];
    const AssemblyLikelihood rest = without(f);
    double total = 0;
    for (std::size_t b = 0; b < p_.branches.size(); ++b) {
      const Branch& branch = p_.branches[b];
      const UnitView lighter = lighten(rest, branch.views[u], position_[f]);
      std::vector<std::vector<double>> mass;  // [unit][target], reweighed
      for (const UnitView& v : branch.views) mass.emplace_back(v.targets.size(), 0.0);
      for (std::size_t c = 0; c < t_.cells(); ++c) {
        if (branch.cell_mass[c] < negligible) continue;
        const std::uint32_t target = branch.views[u].target_of[c];
        const double m = branch.cell_mass[c] * std::exp(lighter.log_p[target] - branch.views[u].log_p[target]);
        total += m;
        out.variants[t_.routes[t_.cell_route[c]].variant] += m;
        for (std::size_t w = 0; w < mass.size(); ++w) mass[w][branch.views[w].target_of[c]] += m;
      }
      for (std::size_t g = 0; g < findings_.size(); ++g) {
        if (g == f) continue;
        const Split split = unit_[g] == u ? split_targets(rest, reweighed(lighter, mass[u]), position_[g] - (position_[g] > position_[f] ? 1 : 0)) : splits_[g][b];
        for (std::size_t t = 0; t < split.type.size(); ++t) {
          out.type[g] += mass[unit_[g]][t] * split.type[t];
          out.later[g] += mass[unit_[g]][t] * split.later[t];
        }
      }
    }
    for (auto* row : {&out.variants, &out.type, &out.later}) {
      for (double& x : *row) x /= total;
    }
    out.type[f] = findings_[f].p_type_spoken;
    out.later[f] = findings_[f].p_later_spoken;
    return out;
  }

 private:
  void place(std::size_t f) {
    for (std::size_t u = 0; u < p_.units.size(); ++u) {
      for (std::size_t i = 0; i < p_.units[u].features().size(); ++i) {
        if (p_.units[u].features()[i].index() != findings_[f].feature) continue;
        unit_.push_back(u);
        position_.push_back(i);
      }
    }
  }

  /// The unit with one observation fewer.
  AssemblyLikelihood without(std::size_t f) const {
    std::vector<FeatureLikelihood> features;
    const AssemblyLikelihood& unit = p_.units[unit_[f]];
    for (std::size_t i = 0; i < unit.features().size(); ++i) {
      if (i != position_[f]) features.push_back(unit.features()[i]);
    }
    return AssemblyLikelihood(t_, unit.assembly(), std::move(features), e_.inspected);
  }

  static UnitView lighten(const AssemblyLikelihood& rest, const UnitView& view, std::size_t position) {
    UnitView out;
    for (AssemblyLikelihood::Target target : view.targets) {
      target.columns.erase(target.columns.begin() + static_cast<std::ptrdiff_t>(position));
      out.log_p.push_back(rest.log(target));
      out.targets.push_back(std::move(target));
    }
    return out;
  }

  static UnitView reweighed(UnitView view, const std::vector<double>& mass) {
    view.mass = mass;
    return view;
  }

  const Tables& t_;
  const Evidence& e_;
  const Posterior& p_;
  const std::vector<FeatureFinding>& findings_;
  std::vector<std::size_t> unit_, position_;   // [finding]
  std::vector<std::vector<Split>> splits_;     // [finding][branch]
};

}  // namespace

std::vector<LeftOut> leave_each_out(const Tables& tables, const Evidence& evidence, const Posterior& posterior, const std::vector<FeatureFinding>& findings) {
  const LeaveOut leave_out(tables, evidence, posterior, findings);
  std::vector<LeftOut> out;
  for (std::size_t f = 0; f < findings.size(); ++f) out.push_back(leave_out.run(f));
  return out;
}

}  // namespace exworks
