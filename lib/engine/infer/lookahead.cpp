#include "engine/infer/lookahead.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "engine/evidence/noting.hpp"

namespace exworks {

namespace {

constexpr double negligible = 1e-12;

double entropy_term(double p) { return p > 0 ? -p * std::log2(p) : 0.0; }

double entropy(const std::vector<double>& p) {
  double h = 0;
  for (double x : p) h += entropy_term(x);
  return h;
}

/// [as built, or later][noted]: a joint table.
using Joint = std::array<std::vector<double>, 2>;

/// I(X;Y) in bits of a joint table that sums to about 1.
double information(const Joint& joint) {
  double total = 0;
  for (const auto& row : joint) {
    for (double p : row) total += p;
  }
  if (total <= 0) return 0;
  std::vector<double> by_y(joint[0].size(), 0.0);
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

/// An open feature: P(T) by level and by the combination of its group.
class OpenFeature {
 public:
  OpenFeature(const Posterior& p, FeatureIndex feature) {
    for (std::size_t u = 0; u < p.units.size(); ++u) {
      for (std::size_t i = 0; i < p.units[u].features().size(); ++i) {
        if (p.units[u].features()[i].index() == feature) find(p, u, i);
      }
    }
  }

  bool found = false;
  std::size_t unit = 0, position = 0, group = 0;
  std::vector<std::vector<double>> type;  ///< [level][combination]

 private:
  void find(const Posterior& p, std::size_t u, std::size_t i) {
    found = true;
    unit = u;
    position = i;
    const auto [g, in_group] = p.group_of(u);
    group = g;
    type = p.combination_mass(g);
    const Group& own = p.groups[g];
    for (std::size_t l = 0; l < type.size(); ++l) {
      for (std::size_t c = 0; c < type[l].size(); ++c) {
        if (type[l][c] <= 0) continue;
        type[l][c] = 0;
        const auto& sets = own.sets_of(c);
        for (std::size_t k = 0; k < sets.size(); ++k) {
          const double had = own.had(l, c, k);
          if (had <= negligible) continue;
          const Unit::Target& target = p.targets[u][own.combinations()[c].targets[in_group]];
          const Scenario s = own.scenario(l, in_group, sets[k]);
          type[l][c] += had * split_type(p.units[u], target, s, i, std::nullopt, p.units[u].log(target, s)).type;
        }
      }
    }
  }
};

/// One unseen feature, joined to what was seen of its assembly and to what conversions tie to it. Not seen, it changes no odds: it only
/// says what will be noted.
class Candidate {
 public:
  Candidate(const Tables& t, const Evidence& e, const Posterior& p, FeatureIndex feature)
      : t_(t), p_(p), feature_(feature), notes_(t.features[feature], t.rates, Trust{}), n_(t.features[feature].value_count()) {
    join(e);
    cells_.assign(p.branches.size() * t.cells(), unknown);
    for (const Active& a : p_.active) add(a);
    group_.front().weigh(units_, targets_);
    tables_.resize(p_.level.size());
    for (auto& row : tables_) row.resize(group_.front().combinations().size());
  }

  Outlook outlook(const std::vector<OpenFeature>& open) {
    Outlook out;
    out.feature = feature_;
    out.noted.assign(n_, 0.0);
    Joint own{std::vector<double>(n_, 0.0), std::vector<double>(n_, 0.0)};
    std::vector<std::vector<double>> by_cell(cells_.size());  // [branch x cell][noted]: levels are summed over within a build
    for (std::size_t i = 0; i < p_.active.size(); ++i) {
      const Active& a = p_.active[i];
      if (a.mass <= negligible) continue;
      const Joint& table = predicted(a.level, combination_[i]);
      auto& cell = by_cell[a.branch * t_.cells() + a.cell];
      cell.resize(n_, 0.0);
      for (std::size_t j = 0; j < n_; ++j) {
        for (std::size_t x = 0; x < 2; ++x) own[x][j] += a.mass * table[x][j];
        cell[j] += a.mass * (table[0][j] + table[1][j]);
      }
      if (t_.features[feature_].columns[p_.branches[a.branch].column(t_, feature_, CellIndex{a.cell})].applies) out.applies += a.mass;
    }
    double inside = 0;
    for (const auto& noted : by_cell) {
      if (noted.empty()) continue;
      double mass = 0;
      for (double x : noted) mass += x;
      for (std::size_t j = 0; j < n_; ++j) {
        out.noted[j] += noted[j];
        inside += mass * entropy_term(noted[j] / mass);
      }
    }
    out.build_bits = std::max(0.0, entropy(out.noted) - inside);
    out.verdict_bits = information(own);
    for (const OpenFeature& f : open) out.verdict_bits += f.found ? information(with_open(f)) : 0.0;
    return out;
  }

 private:
  /// The units of the groups that the feature touches, its own with it at the end.
  void join(const Evidence& e) {
    const auto assembly = t_.features[feature_].assembly;
    std::vector<FeatureLikelihood> features;
    std::optional<std::size_t> extended;
    for (std::size_t u = 0; assembly && u < p_.units.size(); ++u) {
      if (p_.units[u].assembly() != assembly) continue;
      extended = u;
      features = p_.units[u].features();
    }
    position_ = features.size();
    features.emplace_back(t_, feature_, nullptr, e.inspected);
    Unit own(t_, assembly, std::move(features), e.inspected);
    std::vector<std::size_t> conversions = own.conversions();
    for (std::size_t g = 0; g < p_.groups.size(); ++g) {
      const Group& group = p_.groups[g];
      const bool holds = extended && std::find(group.units().begin(), group.units().end(), *extended) != group.units().end();
      const bool tied = std::any_of(group.conversions().begin(), group.conversions().end(), [&](std::size_t c) { return std::find(own.conversions().begin(), own.conversions().end(), c) != own.conversions().end(); });
      if (!holds && !tied) continue;
      for (std::size_t u : group.units()) {
        if (extended && u == *extended) continue;
        from_.push_back(u);
        units_.push_back(p_.units[u]);
      }
      conversions.insert(conversions.end(), group.conversions().begin(), group.conversions().end());
    }
    extended_ = extended;
    own_ = units_.size();
    units_.push_back(std::move(own));
    std::sort(conversions.begin(), conversions.end());
    conversions.erase(std::unique(conversions.begin(), conversions.end()), conversions.end());
    std::vector<std::size_t> all(units_.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    group_.emplace_back(t_, units_, std::move(all), std::move(conversions), e.inspected);
    targets_.resize(units_.size());
    for (std::size_t i = 0; i < from_.size(); ++i) targets_[i] = p_.targets[from_[i]];
  }

  void add(const Active& a) {
    const Branch& branch = p_.branches[a.branch];
    std::uint32_t& known = cells_[a.branch * t_.cells() + a.cell];
    if (known == unknown) {
      std::vector<std::uint32_t> of;
      for (std::size_t u : from_) of.push_back(branch.target_of[u][a.cell]);
      std::vector<ColumnIndex> columns;
      for (const FeatureLikelihood& f : units_[own_].features()) columns.push_back(branch.column(t_, f.index(), CellIndex{a.cell}));
      Unit::Target target = units_[own_].target_of(a.cell, std::move(columns));
      const auto [slot, fresh_target] = index_.try_emplace(target, static_cast<std::uint32_t>(targets_[own_].size()));
      if (fresh_target) targets_[own_].push_back(std::move(target));
      of.push_back(slot->second);
      known = group_.front().combination_of(a.cell, std::move(of));
    }
    combination_.push_back(known);
  }

  /// What will be noted of such a vehicle, given what was seen.
  const Joint& predicted(std::size_t level, std::size_t combination) {
    std::optional<Joint>& slot = tables_[level][combination];
    if (!slot) {
      slot = Joint{std::vector<double>(n_, 0.0), std::vector<double>(n_, 0.0)};
      const Group& group = group_.front();
      const auto& sets = group.sets_of(combination);
      for (std::size_t k = 0; k < sets.size(); ++k) {
        const double had = group.had(level, combination, k);
        if (had > negligible) note(group.scenario(level, own_, sets[k]), combination, had, std::nullopt, *slot);
      }
    }
    return *slot;
  }

  /// Adds what will be noted in one scenario. Rows: the feature as built or later; with `open`, that feature of the unit as built or later.
  void note(Scenario s, std::size_t combination, double mass, std::optional<std::size_t> open, Joint& out) const {
    const Unit& unit = units_[own_];
    const Unit::Target& target = targets_[own_][group_.front().combinations()[combination].targets[own_]];
    const double log_p = unit.log(target, s);
    Joint there{std::vector<double>(n_, 0.0), std::vector<double>(n_, 0.0)};
    if (open) {
      with_open_of_unit(unit, target, s, *open, log_p, there);
    } else {
      unit.each_outcome(target, s, position_, std::nullopt, log_p, [&](std::size_t v, double type, double later, Cause, std::size_t) {
        there[0][v] += type;
        there[1][v] += later;
      });
    }
    for (std::size_t x = 0; x < 2; ++x) {
      for (ValueIndex v; v < n_; ++v) {
        if (there[x][v] <= 0) continue;
        for (ValueIndex j; j < n_; ++j) out[x][j] += mass * there[x][v] * notes_(j, v);
      }
    }
  }

  /// [open as built, or later][value there of the candidate], both of one unit.
  void with_open_of_unit(const Unit& unit, const Unit::Target& target, Scenario s, std::size_t open, double log_p, Joint& there) const {
    const std::vector<double>& given = unit.features()[open].given();
    const std::vector<double>& works = unit.features()[open].works(target.columns[open]);
    const std::array<std::size_t, 2> without{position_, open};
    unit.each_way_but_donors(target, s, without, [&](Way way, double log_weight) {
      const double weight = std::exp(log_weight - log_p);
      std::array<double, 2> of_open{0, 0};
      unit.each_state(target, s, open, way, [&](std::size_t v, double type, double later, Cause, std::size_t) {
        of_open[0] += weight * given[v] * type;
        of_open[1] += weight * given[v] * later;
      });
      unit.each_state(target, s, position_, way, [&](std::size_t v, double type, double later, Cause, std::size_t) {
        for (std::size_t x = 0; x < 2; ++x) there[x][v] += of_open[x] * (type + later);
      });
    });
    const std::vector<double> pairs = unit.donor_pairs(target, s, open, position_, log_p);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const std::size_t o = i / n_, v = i % n_;
      there[0][v] += pairs[i] * given[o] * works[o];
      there[1][v] += pairs[i] * given[o] * (1 - works[o]);
    }
  }

  /// The joint of what will be noted here and whether an open feature is of the type as built.
  Joint with_open(const OpenFeature& open) {
    Joint joint{std::vector<double>(n_, 0.0), std::vector<double>(n_, 0.0)};
    if (extended_ && open.unit == *extended_) in_group(own_, open.position, joint);
    else if (const auto at = std::find(from_.begin(), from_.end(), open.unit); at != from_.end()) in_group(static_cast<std::size_t>(at - from_.begin()), open.position, joint);
    else apart(open, joint);
    return joint;
  }

  /// Through the build and the level alone.
  void apart(const OpenFeature& open, Joint& joint) {
    for (std::size_t i = 0; i < p_.active.size(); ++i) {
      const Active& a = p_.active[i];
      if (a.mass <= negligible) continue;
      const double type = open.type[a.level][p_.branches[a.branch].combination_of[open.group][a.cell]];
      const Joint& table = predicted(a.level, combination_[i]);
      for (std::size_t j = 0; j < n_; ++j) {
        const double noted = a.mass * (table[0][j] + table[1][j]);
        joint[0][j] += noted * type;
        joint[1][j] += noted * (1 - type);
      }
    }
  }

  /// Within the candidate's group what was replaced and converted is shared, too.
  void in_group(std::size_t unit, std::size_t position, Joint& joint) {
    const Group& group = group_.front();
    std::map<std::pair<std::uint32_t, std::uint32_t>, double> mass;
    for (std::size_t i = 0; i < p_.active.size(); ++i) mass[{p_.active[i].level, combination_[i]}] += p_.active[i].mass;
    for (const auto& [key, m] : mass) {
      const auto& sets = group.sets_of(key.second);
      for (std::size_t k = 0; m > negligible && k < sets.size(); ++k) {
        const double had = m * group.had(key.first, key.second, k);
        if (had <= negligible) continue;
        const Scenario own = group.scenario(key.first, own_, sets[k]);
        if (unit == own_) {
          note(own, key.second, had, position, joint);
          continue;
        }
        const Unit::Target& target = targets_[unit][group.combinations()[key.second].targets[unit]];
        const Scenario s = group.scenario(key.first, unit, sets[k]);
        const double type = split_type(units_[unit], target, s, position, std::nullopt, units_[unit].log(target, s)).type;
        Joint table{std::vector<double>(n_, 0.0), std::vector<double>(n_, 0.0)};
        note(own, key.second, had, std::nullopt, table);
        for (std::size_t j = 0; j < n_; ++j) {
          joint[0][j] += type * (table[0][j] + table[1][j]);
          joint[1][j] += (1 - type) * (table[0][j] + table[1][j]);
        }
      }
    }
  }

  const Tables& t_;
  const Posterior& p_;
  FeatureIndex feature_;
  NoteModel notes_;
  std::size_t n_;
  std::size_t position_ = 0, own_ = 0;           // of the candidate in its unit; of that unit in `units_`
  std::optional<std::size_t> extended_;          // the unit of the posterior that it joins
  std::vector<std::size_t> from_;                // [unit but the own]: the posterior's
  std::vector<Unit> units_;
  std::vector<Group> group_;                     // one
  std::vector<std::vector<Unit::Target>> targets_;
  std::map<Unit::Target, std::uint32_t> index_;
  static constexpr std::uint32_t unknown = ~0u;
  std::vector<std::uint32_t> cells_;             // [branch x cell]: combination
  std::vector<std::uint32_t> combination_;       // [active]
  std::vector<std::vector<std::optional<Joint>>> tables_;  // [level][combination]
};

}  // namespace

std::vector<Outlook> outlooks(const Tables& tables, const Evidence& evidence, const Posterior& posterior, const std::vector<FeatureIndex>& open) {
  std::vector<Outlook> out;
  std::vector<OpenFeature> open_features;
  for (FeatureIndex f : open) open_features.emplace_back(posterior, f);
  for (FeatureIndex f; f < tables.features.size(); ++f) {
    if (tables.features[f].of_number || evidence.find(f) != nullptr) continue;
    Candidate candidate(tables, evidence, posterior, f);
    Outlook o = candidate.outlook(open_features);
    if (o.applies > 0.01) out.push_back(std::move(o));
  }
  return out;
}

Evidence with_note(const Tables& tables, const Evidence& evidence, FeatureIndex feature, ValueIndex value) {
  Evidence out = evidence;
  out.seen.push_back(look(tables, feature, {value}, Trust{}));
  return out;
}

}  // namespace exworks
