#include "engine/infer/fit.hpp"

#include <cmath>
#include <map>
#include <memory>

#include "base/log_weight.hpp"
#include "base/random.hpp"
#include "engine/evidence/noting.hpp"

namespace exworks {

namespace {

/// What an inspector would note of one feature who looks as this one did: what the look left open counts as one note.
class Notes {
 public:
  Notes(const Tables& tables, const Seen& seen) : model_(tables.features[seen.feature], tables.rates, seen.trust), note_of_(tables.features[seen.feature].value_count()) {
    for (ValueIndex v; v < note_of_.size(); ++v) note_of_[v] = v;
    for (ValueIndex v : seen.left_open) note_of_[v] = seen.left_open.front();
  }

  ValueIndex draw(ValueIndex there, Random& random) const { return note_of_[random.pick(model_.notes(there))]; }
  /// [there]: P(this note | there)
  std::vector<double> given(ValueIndex note) const {
    std::vector<ValueIndex> values;
    for (ValueIndex v; v < note_of_.size(); ++v) {
      if (note_of_[v] == note) values.push_back(v);
    }
    return model_.given(values);
  }

 private:
  NoteModel model_;
  std::vector<ValueIndex> note_of_;
};

/// One unit of one target in one scenario: what each way of its coming about leaves there. Ways that leave the same are one.
class UnitStates {
 public:
  UnitStates(const Unit& unit, const Unit::Target& target, Scenario s) {
    std::vector<std::size_t> all(unit.features().size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    std::map<std::vector<std::vector<double>>, double> alike;
    unit.each_way(target, s, all, [&](Way way, double log_weight) {
      std::vector<std::vector<double>> left;
      for (std::size_t i = 0; i < all.size(); ++i) {
        auto& row = left.emplace_back(unit.features()[i].values(), 0.0);
        unit.each_state(target, s, i, way, [&](std::size_t v, double type, double later, Cause, std::size_t) { row[v] += type + later; });
      }
      alike[std::move(left)] += std::exp(log_weight);
    });
    for (auto& [left, weight] : alike) {
      left_.push_back(left);
      weight_.push_back(weight);
    }
  }

  std::vector<std::size_t> draw(Random& random) const {
    const std::size_t way = random.pick(weight_);
    std::vector<std::size_t> there;
    for (const auto& row : left_[way]) there.push_back(random.pick(row));
    return there;
  }

  /// log P(notes), each note as [there]: P(it | there)
  double log_p(const std::vector<std::vector<double>>& given) const {
    std::vector<double> terms;
    for (std::size_t w = 0; w < weight_.size(); ++w) {
      double p = std::log(weight_[w]);
      for (std::size_t i = 0; i < given.size(); ++i) {
        double l = 0;
        for (std::size_t v = 0; v < given[i].size(); ++v) l += given[i][v] * left_[w][i][v];
        p += std::log(l);
      }
      terms.push_back(p);
    }
    return log_sum(terms);
  }

 private:
  std::vector<std::vector<std::vector<double>>> left_;  // [way][feature][there]
  std::vector<double> weight_;                          // [way]
};

/// One group of one combination at one level: draws what would be noted of such a vehicle, and weighs it.
class GroupSimulator {
 public:
  GroupSimulator(const Posterior& p, const std::vector<std::vector<Notes>>& notes, std::size_t g, std::size_t level, std::size_t combination) : group_(p.groups[g]), notes_(notes) {
    for (const std::uint32_t set : group_.sets_of(combination)) {
      share_.push_back(group_.share(level, combination, set));
      auto& row = states_.emplace_back();
      if (share_.back() <= 0) continue;
      for (std::size_t i = 0; i < group_.units().size(); ++i) {
        const std::size_t u = group_.units()[i];
        row.emplace_back(p.units[u], p.targets[u][group_.combinations()[combination].targets[i]], group_.scenario(level, i, set));
      }
    }
  }

  /// log P(what is drawn | combination, level)
  double draw(Random& random) const {
    const std::size_t set = share_.size() == 1 ? 0 : random.pick(share_);
    std::vector<std::vector<std::vector<double>>> given;  // [unit][feature][there]
    for (std::size_t i = 0; i < group_.units().size(); ++i) {
      auto& row = given.emplace_back();
      const std::vector<std::size_t> there = states_[set][i].draw(random);
      for (std::size_t f = 0; f < there.size(); ++f) {
        const Notes& notes = notes_[group_.units()[i]][f];
        row.push_back(notes.given(notes.draw(ValueIndex{there[f]}, random)));
      }
    }
    std::vector<double> terms;
    for (std::size_t s = 0; s < share_.size(); ++s) {
      if (share_[s] <= 0) continue;
      terms.push_back(std::log(share_[s]));
      for (std::size_t i = 0; i < given.size(); ++i) terms.back() += states_[s][i].log_p(given[i]);
    }
    return log_sum(terms);
  }

 private:
  const Group& group_;
  const std::vector<std::vector<Notes>>& notes_;  // [unit][feature]
  std::vector<double> share_;                     // [set]
  std::vector<std::vector<UnitStates>> states_;   // [set][unit of the group]
};

}  // namespace

double fit_check(const Tables& tables, const Posterior& posterior, const Evidence& evidence, std::uint64_t seed, int draws) {
  if (posterior.units.empty() || posterior.impossible) return 1.0;
  std::vector<std::vector<Notes>> notes;
  for (const Unit& unit : posterior.units) {
    auto& row = notes.emplace_back();
    for (const FeatureLikelihood& f : unit.features()) row.emplace_back(tables, *evidence.find(f.index()));
  }
  // One simulator per group, level and combination that comes up; the stratified draws below visit few.
  std::map<std::tuple<std::size_t, std::uint32_t, std::uint32_t>, std::unique_ptr<GroupSimulator>> simulators;
  double total = 0;
  for (const Active& a : posterior.active) total += a.mass;
  Random random(seed);
  int as_unlikely = 0;
  std::size_t at = 0;
  double cumulative = posterior.active[0].mass;
  for (int n = 0; n < draws; ++n) {
    const double goal = (n + 0.5) / draws * total;
    while (cumulative < goal && at + 1 < posterior.active.size()) cumulative += posterior.active[++at].mass;
    const Active& a = posterior.active[at];
    double observed = 0, simulated = 0;
    for (std::size_t g = 0; g < posterior.groups.size(); ++g) {
      const std::uint32_t combination = posterior.branches[a.branch].combination_of[g][a.cell];
      observed += posterior.groups[g].log_p(a.level, combination);
      auto& simulator = simulators[{g, a.level, combination}];
      if (!simulator) simulator = std::make_unique<GroupSimulator>(posterior, notes, g, a.level, combination);
      simulated += simulator->draw(random);
    }
    if (simulated <= observed + 1e-12) ++as_unlikely;
  }
  return static_cast<double>(as_unlikely) / draws;
}

}  // namespace exworks
