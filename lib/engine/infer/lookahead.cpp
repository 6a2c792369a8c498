#include "engine/infer/lookahead.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

namespace {

double entropy_term(double p) { return p > 0 ? -p * std::log2(p) : 0.0; }

double entropy(const std::vector<double>& p) {
  double h = 0;
  for (double x : p) h += entropy_term(x);
  return h;
}

/// I(X;Y) in bits of a joint table [x][y] that sums to about 1.
double information(const std::vector<std::vector<double>>& joint) {
  double total = 0;
  for (const auto& row : joint) {
    for (double p : row) total += p;
  }
  if (total <= 0) return 0;
  std::vector<double> by_y(joint.front().size(), 0.0);
  double h_joint = 0, h_x = 0;
  for (const auto& row : joint) {
    double sum = 0;
    for (std::size_t y = 0; y < row.size(); ++y) {
      h_joint += entropy_term(row[y] / total);
      by_y[y] += row[y] / total;
      sum += row[y] / total;
    }
    h_x += entropy_term(sum);
  }
  return std::max(0.0, h_x + entropy(by_y) - h_joint);
}

/// One unseen feature, joined to what was seen of its assembly.
class Candidate {
 public:
  Candidate(const Tables& t, const Evidence& e, const Posterior& p, std::size_t feature)
      : t_(t), p_(p), feature_(feature), unit_(make_unit(t, e, feature)), position_(unit_.features().size() - 1) {
    const FeatureInfo& f = t.features[feature];
    for (std::size_t noted = 0; noted < f.value_count(); ++noted) slips_.push_back(slip_model(f, noted, slip_rate(t, feature, HowSeen::seen, HowSure::sure), t.rates.look_alike));
    for (std::size_t b = 0; b < p.branches.size(); ++b) add_branch(b);
  }

  Outlook outlook(const std::vector<std::size_t>& open) const {
    Outlook out;
    out.feature = feature_;
    out.applies = applies_;
    const std::size_t n = slips_.size();
    out.noted.assign(n, 0.0);
    double inside = 0;
    std::vector<std::vector<double>> own(2, std::vector<double>(n, 0.0));
    for (const Target& t : targets_) {
      for (std::size_t j = 0; j < n; ++j) {
        const double p = t.noted_type[j] + t.noted_later[j];
        out.noted[j] += t.mass * p;
        inside += t.mass * entropy_term(p);
        own[0][j] += t.mass * t.noted_type[j];
        own[1][j] += t.mass * t.noted_later[j];
      }
    }
    out.build_bits = std::max(0.0, entropy(out.noted) - inside);
    out.verdict_bits = information(own);
    for (std::size_t f : open) out.verdict_bits += about(f);
    return out;
  }

 private:
  struct Target {
    AssemblyLikelihood::Target columns;
    double mass = 0;
    std::vector<double> noted_type, noted_later;  ///< [noted]: with the value as built, or changed
  };

  static AssemblyLikelihood make_unit(const Tables& t, const Evidence& e, std::size_t feature) {
    std::vector<FeatureLikelihood> features;
    const auto assembly = t.features[feature].assembly;
    if (assembly) {
      for (const Seen& s : e.seen) {
        if (t.features[s.feature].assembly == assembly) features.emplace_back(t, s.feature, &s, e.inspected);
      }
    }
    features.emplace_back(t, feature, nullptr, e.inspected);
    return AssemblyLikelihood(t, assembly, std::move(features), e.inspected);
  }

  void add_branch(std::size_t index) {
    const Branch& branch = p_.branches[index];
    std::map<AssemblyLikelihood::Target, std::size_t> seen;
    auto& of_cell = target_of_.emplace_back(t_.cells(), 0);
    for (std::size_t c = 0; c < t_.cells(); ++c) {
      if (branch.cell_mass[c] <= 1e-12) continue;
      AssemblyLikelihood::Target columns;
      for (const FeatureLikelihood& f : unit_.features()) columns.columns.push_back(branch.column(t_, f.index(), c));
      if (unit_.assembly()) {
        const AssemblyInfo& a = t_.assemblies[*unit_.assembly()];
        columns.donor_group = a.donor_group[t_.routes[t_.cell_route[c]].variant];
        columns.changes = a.columns[a.column_of[c]].changes;
      }
      const auto [at, fresh] = seen.try_emplace(columns, targets_.size());
      if (fresh) targets_.push_back(predict(columns));
      targets_[at->second].mass += branch.cell_mass[c];
      of_cell[c] = at->second;
      if (t_.features[feature_].columns[columns.columns[position_]].applies) applies_ += branch.cell_mass[c];
    }
  }

  /// What will be noted of such a vehicle, given what was seen of the assembly.
  Target predict(const AssemblyLikelihood::Target& columns) const {
    Target out;
    out.columns = columns;
    const std::size_t n = slips_.size();
    out.noted_type.assign(n, 0.0);
    out.noted_later.assign(n, 0.0);
    const double log_p = unit_.log(columns);
    const FeatureLikelihood& f = unit_.features()[position_];
    const std::vector<double>& works = f.feature().columns[columns.columns[position_]].share;
    double intact = unit_.log_intact();
    for (std::size_t i = 0; i < unit_.features().size(); ++i) intact += unit_.features()[i].log(columns.columns[i]);
    const auto add = [&](double weight, bool own, const std::vector<double>& left) {
      for (std::size_t v = 0; v < n; ++v) {
        const auto [type, later] = own ? own_process(f, columns.columns[position_], v) : std::pair{left[v] * works[v], left[v] * (1 - works[v])};
        for (std::size_t j = 0; j < n; ++j) {
          out.noted_type[j] += weight * slips_[j][v] * type;
          out.noted_later[j] += weight * slips_[j][v] * later;
        }
      }
    };
    add(std::exp(intact - log_p), true, {});
    const AssemblyLikelihood::Donors& donors = unit_.donors(columns);
    if (!donors.left.empty()) add(std::exp(donors.log_others[position_] - log_p), false, donors.left[position_]);
    for (const auto& way : unit_.ways(columns)) {
      if (way.of_family()) continue;
      const double weight = std::exp(way.log_weight + unit_.log_way(way, columns, std::nullopt) - log_p);
      if (weight < 1e-12) continue;
      const bool own = unit_.leaves_alone(*way.change, position_);
      add(weight, own, own ? works : unit_.way_values(way, columns, position_));
    }
    return out;
  }

  /// I(T of an open feature; what will be noted here), through the build. Within one assembly the shared replacement is left
  /// out, so that this is a lower bound there.
  double about(std::size_t open) const {
    std::vector<std::vector<double>> joint(2, std::vector<double>(slips_.size(), 0.0));
    for (std::size_t u = 0; u < p_.units.size(); ++u) {
      const AssemblyLikelihood& unit = p_.units[u];
      for (std::size_t i = 0; i < unit.features().size(); ++i) {
        if (unit.features()[i].index() == open) joint_with(u, i, joint);
      }
    }
    return information(joint);
  }

  void joint_with(std::size_t u, std::size_t position, std::vector<std::vector<double>>& joint) const {
    for (std::size_t b = 0; b < p_.branches.size(); ++b) {
      const UnitView& view = p_.branches[b].views[u];
      std::vector<double> type(view.targets.size(), -1.0);
      for (std::size_t c = 0; c < t_.cells(); ++c) {
        const double mass = p_.branches[b].cell_mass[c];
        if (mass <= 1e-9) continue;
        double& p = type[view.target_of[c]];
        if (p < 0) p = split_type(p_.units[u], view.targets[view.target_of[c]], position, view.log_p[view.target_of[c]]).type;
        const Target& t = targets_[target_of_[b][c]];
        for (std::size_t j = 0; j < slips_.size(); ++j) {
          const double noted = t.noted_type[j] + t.noted_later[j];
          joint[0][j] += mass * p * noted;
          joint[1][j] += mass * (1 - p) * noted;
        }
      }
    }
  }

  const Tables& t_;
  const Posterior& p_;
  std::size_t feature_;
  AssemblyLikelihood unit_;
  std::size_t position_;
  std::vector<std::vector<double>> slips_;            // [noted][there]
  std::vector<Target> targets_;
  std::vector<std::vector<std::size_t>> target_of_;   // [branch][cell]
  double applies_ = 0;
};

}  // namespace

std::vector<Outlook> outlooks(const Tables& tables, const Evidence& evidence, const Posterior& posterior, const std::vector<std::size_t>& open) {
  std::vector<Outlook> out;
  for (std::size_t f = 0; f < tables.features.size(); ++f) {
    if (tables.features[f].of_number || evidence.find(f) != nullptr) continue;
    const Candidate candidate(tables, evidence, posterior, f);
    Outlook o = candidate.outlook(open);
    if (o.applies > 0.01) out.push_back(std::move(o));
  }
  return out;
}

Evidence with_note(const Tables& tables, const Evidence& evidence, std::size_t feature, std::size_t value) {
  Evidence out = evidence;
  Seen seen;
  seen.feature = feature;
  seen.value = value;
  seen.slip = slip_rate(tables, feature, HowSeen::seen, HowSure::sure);
  seen.given = slip_model(tables.features[feature], value, seen.slip, tables.rates.look_alike);
  out.seen.push_back(std::move(seen));
  return out;
}

}  // namespace exworks
