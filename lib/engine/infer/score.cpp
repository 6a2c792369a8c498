#include "engine/infer/score.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace exworks {

namespace {

using Distribution = std::vector<double>;  // [weight as built]

/// One more feature of weight w: as built with share `type`, changed with share `later`.
void add_feature(Distribution& d, int w, double type, double later) {
  const std::size_t size = d.size(), step = static_cast<std::size_t>(w);
  d.resize(size + step, 0.0);
  for (std::size_t s = size; s-- > 0;) {
    d[s + step] += d[s] * type;
    d[s] *= later;
  }
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
    std::vector<Active> cells = p_.active;
    std::stable_sort(cells.begin(), cells.end(), [](const Active& a, const Active& b) { return a.mass > b.mass; });
    std::map<std::vector<std::uint32_t>, Distribution> known;  // cells with the same combinations have the same distribution
    double taken = 0;
    for (const Active& a : cells) {
      if (taken > 0.999) break;
      taken += a.mass;
      std::vector<std::uint32_t> key{a.level};
      for (const auto& row : p_.branches[a.branch].combination_of) key.push_back(row[a.cell]);
      auto at = known.find(key);
      if (at == known.end()) at = known.emplace(key, of_cell(key)).first;
      for (std::size_t s = 0; s < at->second.size(); ++s) total[s] += a.mass * at->second[s];
    }
    for (double& x : total) x /= taken;
    return total;
  }

 private:
  /// `key`: the level, then the combination of each group.
  Distribution of_cell(const std::vector<std::uint32_t>& key) const {
    Distribution d{1.0};
    for (std::size_t g = 0; g < p_.groups.size(); ++g) {
      const Distribution& own = of_combination(key.front(), g, key[g + 1]);
      if (own.size() > 1) d = convolve(d, own);
    }
    return d;
  }

  const Distribution& of_combination(std::uint32_t level, std::size_t g, std::uint32_t combination) const {
    auto& slot = combinations_[{level, g, combination}];
    if (!slot.empty()) return slot;
    const Group& group = p_.groups[g];
    const auto& sets = group.sets_of(combination);
    for (std::size_t k = 0; k < sets.size(); ++k) {
      const double had = group.had(level, combination, k);
      if (had <= 0) continue;
      Distribution d{1.0};
      for (std::size_t i = 0; i < group.units().size(); ++i) {
        const std::size_t u = group.units()[i];
        d = convolve(d, of_target(p_.units[u], p_.targets[u][group.combinations()[combination].targets[i]], group.scenario(level, i, sets[k])));
      }
      slot.resize(d.size(), 0.0);
      for (std::size_t s = 0; s < d.size(); ++s) slot[s] += had * d[s];
    }
    return slot;
  }

  Distribution of_target(const Unit& unit, const Unit::Target& target, Scenario s) const {
    int most = 0;
    for (const FeatureLikelihood& f : unit.features()) most += weight_[f.index()];
    if (most == 0) return {1.0};
    Distribution sum(static_cast<std::size_t>(most) + 1, 0.0);
    const double log_p = unit.log(target, s);
    unit.each_way(target, s, {}, [&](Way way, double log_weight) {
      const double weight = std::exp(log_weight - log_p);
      if (weight < 1e-12) return;
      Distribution d{1.0};
      for (std::size_t i = 0; i < unit.features().size(); ++i) {
        const int w = weight_[unit.features()[i].index()];
        if (w == 0) continue;
        const auto [type, later] = way.kind == Way::Kind::donor ? donor_split(unit, target, s, i, way) : feature_split(unit, target, s, i, way);
        add_feature(d, w, type, later);
      }
      for (std::size_t x = 0; x < d.size(); ++x) sum[x] += weight * d[x];
    });
    return sum;
  }

  /// The same for all donors with one column and all builds with one column: worked out once.
  std::pair<double, double> donor_split(const Unit& unit, const Unit::Target& target, Scenario s, std::size_t i, Way way) const {
    const std::size_t columns = unit.features()[i].info().columns.size();
    auto& known = donor_splits_[{&unit, unit.index(s), i}];
    if (known.empty()) known.assign(columns * columns, {-1.0, 0.0});
    auto& split = known[unit.donor_column(way.index, i) * columns + target.columns[i]];
    if (split.first < 0) split = feature_split(unit, target, s, i, way);
    return split;
  }

  /// Shares of "as built" and "changed" of one feature, given the way its assembly came to be; they sum to 1.
  static std::pair<double, double> feature_split(const Unit& unit, const Unit::Target& target, Scenario s, std::size_t i, Way way) {
    const std::vector<double>& given = unit.features()[i].given();
    double type = 0, later = 0;
    unit.each_state(target, s, i, way, [&](std::size_t v, double t, double l, Cause, std::size_t) {
      type += given[v] * t;
      later += given[v] * l;
    });
    const double sum = type + later;
    return sum > 0 ? std::pair{type / sum, later / sum} : std::pair{0.0, 1.0};
  }

  const Tables& t_;
  const Posterior& p_;
  std::vector<int> weight_;
  int counted_ = 0;
  mutable std::map<std::tuple<std::uint32_t, std::size_t, std::uint32_t>, Distribution> combinations_;
  mutable std::map<std::tuple<const Unit*, std::size_t, std::size_t>, std::vector<std::pair<double, double>>> donor_splits_;  // [donor's column x build's column]
};

double share_inspected(const Tables& t, const Posterior& p, const std::vector<FeatureFinding>& findings) {
  double all = 0, seen = 0;
  for (FeatureIndex f; f < t.features.size(); ++f) {
    if (t.features[f].weight == 0) continue;
    double applies = 0;
    const std::vector<double> mass = p.column_mass(t, f);
    for (std::size_t c = 0; c < mass.size(); ++c) applies += t.features[f].columns[c].applies ? mass[c] : 0.0;
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
