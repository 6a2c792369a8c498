#include "engine/infer/score.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

namespace {

using Distribution = std::vector<double>;  // [weight as built]

/// One more feature of weight w: as built with share `type`, changed with share `later`.
void add_feature(Distribution& d, int w, double type, double later) {
  Distribution next(d.size() + static_cast<std::size_t>(w), 0.0);
  for (std::size_t s = 0; s < d.size(); ++s) {
    next[s] += d[s] * later;
    next[s + static_cast<std::size_t>(w)] += d[s] * type;
  }
  d = std::move(next);
}

Distribution convolve(const Distribution& a, const Distribution& b) {
  Distribution out(a.size() + b.size() - 1, 0.0);
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] < 1e-15) continue;
    for (std::size_t j = 0; j < b.size(); ++j) out[i + j] += a[i] * b[j];
  }
  return out;
}

class Scorer {
 public:
  Scorer(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings) : t_(tables), p_(posterior), weight_(tables.features.size(), 0) {
    for (const FeatureFinding& f : findings) {
      if (f.p_silent <= 0.5) weight_[f.feature] = tables.features[f.feature].weight;
      counted_ += weight_[f.feature];
    }
  }

  int counted() const { return counted_; }

  Distribution run() const {
    Distribution total(static_cast<std::size_t>(counted_) + 1, 0.0);
    struct CellOf {
      std::size_t branch, cell;
      double mass;
    };
    std::vector<CellOf> cells;
    for (std::size_t b = 0; b < p_.branches.size(); ++b) {
      for (std::size_t c = 0; c < t_.cells(); ++c) {
        if (p_.branches[b].cell_mass[c] > 1e-9) cells.push_back({b, c, p_.branches[b].cell_mass[c]});
      }
    }
    std::sort(cells.begin(), cells.end(), [](const CellOf& a, const CellOf& b) { return a.mass > b.mass; });
    std::map<std::vector<std::uint32_t>, Distribution> known;  // cells with the same targets have the same distribution
    double taken = 0;
    for (const CellOf& c : cells) {
      if (taken > 0.999) break;
      taken += c.mass;
      std::vector<std::uint32_t> key{static_cast<std::uint32_t>(c.branch)};
      for (const UnitView& v : p_.branches[c.branch].views) key.push_back(v.target_of[c.cell]);
      auto at = known.find(key);
      if (at == known.end()) at = known.emplace(std::move(key), of_cell(c.branch, c.cell)).first;
      for (std::size_t s = 0; s < at->second.size(); ++s) total[s] += c.mass * at->second[s];
    }
    for (double& x : total) x /= taken;
    return total;
  }

 private:
  Distribution of_cell(std::size_t branch, std::size_t cell) const {
    Distribution d{1.0};
    for (std::size_t u = 0; u < p_.units.size(); ++u) {
      const UnitView& view = p_.branches[branch].views[u];
      d = convolve(d, of_target(branch, u, view.target_of[cell]));
    }
    return d;
  }

  const Distribution& of_target(std::size_t branch, std::size_t u, std::uint32_t target) const {
    auto& slot = targets_[{branch, u, target}];
    if (slot.empty()) slot = of_target(p_.units[u], p_.branches[branch].views[u].targets[target], p_.branches[branch].views[u].log_p[target]);
    return slot;
  }

  Distribution of_target(const AssemblyLikelihood& unit, const AssemblyLikelihood::Target& target, double log_p) const {
    int most = 0;
    double rest = unit.log_intact();
    for (std::size_t i = 0; i < unit.features().size(); ++i) {
      most += weight_[unit.features()[i].index()];
      rest += unit.features()[i].log(target.columns[i]);
    }
    Distribution sum(static_cast<std::size_t>(most) + 1, 0.0);
    const auto add_way = [&](double weight, const AssemblyLikelihood::Way* way) {
      if (weight < 1e-12) return;
      Distribution d{1.0};
      for (std::size_t i = 0; i < unit.features().size(); ++i) {
        const auto [type, later] = feature_split(unit, target, i, way);
        add_feature(d, weight_[unit.features()[i].index()], type, later);
      }
      for (std::size_t s = 0; s < d.size(); ++s) sum[s] += weight * d[s];
    };
    add_way(std::exp(rest - log_p), nullptr);
    for (const auto& way : unit.ways(target)) add_way(std::exp(way.log_weight + unit.log_way(way, target, std::nullopt) - log_p), &way);
    return sum;
  }

  /// Shares of "as built" and "changed" of one feature, given the way its assembly came to be; they sum to 1.
  static std::pair<double, double> feature_split(const AssemblyLikelihood& unit, const AssemblyLikelihood::Target& target, std::size_t i, const AssemblyLikelihood::Way* way) {
    const FeatureLikelihood& f = unit.features()[i];
    const std::vector<double>& works = f.feature().columns[target.columns[i]].share;
    const bool own = way == nullptr || (way->change && unit.leaves_alone(*way->change, i));
    const std::vector<double>* left = own ? nullptr : &unit.way_values(*way, target, i);
    double type = 0, later = 0;
    for (std::size_t v = 0; v < works.size(); ++v) {
      const auto [t, l] = own ? own_process(f, target.columns[i], v) : std::pair{(*left)[v] * works[v], (*left)[v] * (1 - works[v])};
      type += f.given()[v] * t;
      later += f.given()[v] * l;
    }
    const double sum = type + later;
    return sum > 0 ? std::pair{type / sum, later / sum} : std::pair{0.0, 1.0};
  }

  const Tables& t_;
  const Posterior& p_;
  std::vector<int> weight_;
  int counted_ = 0;
  mutable std::map<std::tuple<std::size_t, std::size_t, std::uint32_t>, Distribution> targets_;
};

double share_inspected(const Tables& t, const Posterior& p, const std::vector<FeatureFinding>& findings) {
  double all = 0, seen = 0;
  for (std::size_t f = 0; f < t.features.size(); ++f) {
    if (t.features[f].weight == 0) continue;
    double applies = 0;
    for (const Branch& b : p.branches) {
      for (std::size_t c = 0; c < t.cells(); ++c) {
        if (b.cell_mass[c] > 0 && t.features[f].columns[b.column(t, f, c)].applies) applies += b.cell_mass[c];
      }
    }
    const double w = applies * t.features[f].weight;
    all += w;
    if (std::any_of(findings.begin(), findings.end(), [&](const FeatureFinding& x) { return x.feature == f; })) seen += w;
  }
  return all > 0 ? seen / all : 0;
}

}  // namespace

Score originality_score(const Tables& tables, const Posterior& posterior, const std::vector<FeatureFinding>& findings) {
  Score score;
  score.coverage = share_inspected(tables, posterior, findings);
  const Scorer scorer(tables, posterior, findings);
  score.weight = scorer.counted();
  if (score.weight == 0) return score;
  const Distribution d = scorer.run();
  double below = 0;
  bool low = false, high = false;
  for (std::size_t s = 0; s < d.size(); ++s) {
    below += d[s];
    const double share = static_cast<double>(s) / score.weight;
    if (!low && below >= 0.05 - 1e-12) low = true, score.low = share;
    if (!high && below >= 0.95 - 1e-12) high = true, score.high = share;
  }
  // The mean needs no distribution, and so no cut: it is exact.
  double built = 0;
  for (const FeatureFinding& f : findings) built += f.p_silent <= 0.5 ? tables.features[f.feature].weight * f.p_type : 0.0;
  score.value = built / score.weight;
  return score;
}

}  // namespace exworks
