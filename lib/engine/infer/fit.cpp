#include "engine/infer/fit.hpp"

#include <cmath>
#include <memory>

#include "base/log_weight.hpp"
#include "base/random.hpp"

namespace exworks {

namespace {

/// One unit of evidence of one target: draws what an inspector would note of such a vehicle, and weighs any such note.
class UnitSimulator {
 public:
  UnitSimulator(const Tables& tables, const AssemblyLikelihood& unit, const AssemblyLikelihood::Target& target, const std::vector<const Seen*>& seen)
      : unit_(unit), target_(target), ways_(unit.ways(target)) {
    weights_.push_back(std::exp(unit.log_intact()));
    for (const auto& way : ways_) weights_.push_back(std::exp(way.log_weight));
    for (std::size_t i = 0; i < unit.features().size(); ++i) {
      const FeatureInfo& f = unit.features()[i].feature();
      auto& table = notes_.emplace_back();
      for (std::size_t noted = 0; noted < f.value_count(); ++noted) table.push_back(slip_model(f, noted, seen[i]->slip, tables.rates.look_alike));
      auto& left = left_.emplace_back();
      left.push_back(unit.features()[i].there(target.columns[i]));
      for (const auto& way : ways_) left.push_back(unit.way_values(way, target, i));
    }
  }

  /// log P(what is drawn | target)
  double draw(Random& random) const {
    const std::size_t way = random.pick(weights_);
    std::vector<std::size_t> noted;
    for (std::size_t i = 0; i < left_.size(); ++i) {
      const std::size_t there = random.pick(left_[i][way]);
      std::vector<double> of_note;
      for (const auto& row : notes_[i]) of_note.push_back(row[there]);
      noted.push_back(random.pick(of_note));
    }
    std::vector<double> terms;
    for (std::size_t w = 0; w < weights_.size(); ++w) {
      double p = weights_[w], scale = 0;
      for (std::size_t i = 0; i < left_.size(); ++i) {
        double l = 0;
        for (std::size_t v = 0; v < left_[i][w].size(); ++v) l += notes_[i][noted[i]][v] * left_[i][w][v];
        p *= l;
        if (p < 1e-200) {  // move to the log before it underflows
          if (p <= 0) break;
          scale += std::log(p);
          p = 1;
        }
      }
      if (p > 0) terms.push_back(scale + std::log(p));
    }
    return log_sum(terms);
  }

 private:
  const AssemblyLikelihood& unit_;
  const AssemblyLikelihood::Target& target_;
  std::vector<AssemblyLikelihood::Way> ways_;
  std::vector<double> weights_;                               // [way], the untouched assembly first
  std::vector<std::vector<std::vector<double>>> notes_;       // [feature][noted][there]
  std::vector<std::vector<std::vector<double>>> left_;        // [feature][way][there]
};

}  // namespace

double fit_check(const Tables& tables, const Posterior& posterior, const Evidence& evidence, std::uint64_t seed, int draws) {
  if (posterior.units.empty() || posterior.impossible) return 1.0;
  std::vector<double> mass;
  for (const Branch& b : posterior.branches) mass.insert(mass.end(), b.cell_mass.begin(), b.cell_mass.end());
  std::vector<std::vector<const Seen*>> seen;
  for (const AssemblyLikelihood& unit : posterior.units) {
    auto& row = seen.emplace_back();
    for (const FeatureLikelihood& f : unit.features()) row.push_back(evidence.find(f.index()));
  }
  // One simulator per unit and target that comes up; the stratified draws below visit few.
  std::vector<std::vector<std::vector<std::unique_ptr<UnitSimulator>>>> simulators(posterior.branches.size());
  for (std::size_t b = 0; b < posterior.branches.size(); ++b) {
    for (const UnitView& view : posterior.branches[b].views) simulators[b].emplace_back(view.targets.size());
  }
  double total = 0;
  for (double m : mass) total += m;
  Random random(seed);
  int as_unlikely = 0;
  std::size_t at = 0;
  double cumulative = mass[0];
  for (int n = 0; n < draws; ++n) {
    const double goal = (n + 0.5) / draws * total;
    while (cumulative < goal && at + 1 < mass.size()) cumulative += mass[++at];
    const std::size_t b = at / tables.cells(), cell = at % tables.cells();
    const Branch& branch = posterior.branches[b];
    double observed = 0, simulated = 0;
    for (std::size_t u = 0; u < posterior.units.size(); ++u) {
      const UnitView& view = branch.views[u];
      const std::uint32_t target = view.target_of[cell];
      observed += view.log_p[target];
      auto& simulator = simulators[b][u][target];
      if (!simulator) simulator = std::make_unique<UnitSimulator>(tables, posterior.units[u], view.targets[target], seen[u]);
      simulated += simulator->draw(random);
    }
    if (simulated <= observed + 1e-12) ++as_unlikely;
  }
  return static_cast<double>(as_unlikely) / draws;
}

}  // namespace exworks
