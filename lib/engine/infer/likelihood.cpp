#include "engine/infer/likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

namespace {

/// A later change counts by its share, as far as it was possible when the vehicle was inspected.
double possible_share(const ChangeInfo& change, std::optional<Month> inspected) {
  const double possible = change.from && inspected ? share_after(*change.from, *inspected) : 1.0;
  return change.share * possible;
}

}  // namespace

FeatureLikelihood::FeatureLikelihood(const Tables& tables, std::size_t feature, const Seen* seen, std::optional<Month> inspected)
    : index_(feature), feature_(&tables.features[feature]) {
  const FeatureInfo& f = *feature_;
  const std::size_t n = f.value_count();
  given_ = seen != nullptr ? seen->given : std::vector<double>(n, 1.0);
  const double even = 1.0 / static_cast<double>(n);
  for (const Column& column : f.columns) {
    std::vector<double> known(n, 0.0);
    double sum = 0;
    for (std::size_t c : column.changes) {
      const double share = possible_share(tables.changes[c], inspected);
      known[tables.changes[c].sets.front().second] += share;
      sum += share;
    }
    std::vector<double> changed(n), there(n);
    double likelihood = 0;
    const double unlisted = sum > 0 ? tables.rates.unlisted : 1.0;
    for (std::size_t v = 0; v < n; ++v) {
      changed[v] = (sum > 0 ? (1 - unlisted) * known[v] / sum : 0.0) + unlisted * even;
      there[v] = (1 - f.altered) * column.share[v] + f.altered * changed[v];
      likelihood += given_[v] * there[v];
    }
    changed_.push_back(std::move(changed));
    there_.push_back(std::move(there));
    log_.push_back(std::log(likelihood));
  }
}

AssemblyLikelihood::AssemblyLikelihood(const Tables& tables, std::optional<std::size_t> assembly, std::vector<FeatureLikelihood> features,
                                       std::optional<Month> inspected)
    : tables_(tables), assembly_(assembly), features_(std::move(features)) {
  if (!assembly_) return;
  const AssemblyInfo& a = tables.assemblies[*assembly_];
  replaced_ = a.replaced;
  log_intact_ = std::log1p(-replaced_);
  for (const FeatureLikelihood& f : features_) {
    positions_.push_back(static_cast<std::size_t>(std::find(a.features.begin(), a.features.end(), f.index()) - a.features.begin()));
  }
  for (const FeatureLikelihood& f : features_) {
    auto& rows = certain_.emplace_back(f.feature().value_count(), std::vector<double>(f.feature().value_count(), 0.0));
    for (std::size_t v = 0; v < rows.size(); ++v) rows[v][v] = 1.0;
  }
  for (std::size_t d = 0; d < a.columns.size(); ++d) {
    double sum = 0;
    for (std::size_t i = 0; i < features_.size(); ++i) sum += features_[i].log(donor_column(d, i));
    donor_log_.push_back(sum);
  }
  find_ways(inspected);
}

bool AssemblyLikelihood::leaves_alone(std::size_t change, std::size_t position) const {
  const auto& sets = tables_.changes[change].sets;
  return std::none_of(sets.begin(), sets.end(), [&](const auto& s) { return s.first == features_[position].index(); });
}

ColumnIndex AssemblyLikelihood::donor_column(std::size_t donor, std::size_t position) const {
  return tables_.assemblies[*assembly_].columns[donor].columns[positions_[position]];
}

void AssemblyLikelihood::find_ways(std::optional<Month> inspected) {
  const AssemblyInfo& a = tables_.assemblies[*assembly_];
  for (std::size_t group = 0; group < a.donors.size(); ++group) {
    for (const AssemblyColumn& column : a.columns) {
      const bool there = std::any_of(way_sets_.begin(), way_sets_.end(), [&](const WaySet& s) { return s.donor_group == group && s.changes == column.changes; });
      if (there) continue;
      WaySet set{group, column.changes, {}, {}};
      double outside = 0;
      for (std::size_t change : column.changes) {
        const double share = possible_share(tables_.changes[change], inspected);
        if (share <= 0) continue;
        set.ways.push_back({{}, change, std::log(replaced_ * share)});
        outside += share;
      }
      add_donors(set, std::log(replaced_ * (1 - outside)));
      take_together(set);
      way_sets_.push_back(std::move(set));
    }
  }
}

void AssemblyLikelihood::add_donors(WaySet& set, double log_share) const {
  const AssemblyInfo& a = tables_.assemblies[*assembly_];
  const std::vector<double>& weight = a.donors[set.donor_group];
  std::map<std::vector<ColumnIndex>, std::vector<std::pair<std::size_t, double>>> alike;
  for (std::size_t d = 0; d < a.columns.size(); ++d) {
    if (weight[d] <= 0) continue;
    std::vector<ColumnIndex> observed;
    for (std::size_t i = 0; i < features_.size(); ++i) observed.push_back(donor_column(d, i));
    alike[observed].emplace_back(d, weight[d]);
  }
  for (auto& [observed, donors] : alike) {
    double sum = 0;
    for (const auto& [d, w] : donors) sum += w;
    for (auto& [d, w] : donors) w /= sum;
    set.ways.push_back({std::move(donors), std::nullopt, log_share + std::log(sum)});
  }
}

void AssemblyLikelihood::take_together(WaySet& set) const {
  std::vector<const Way*> donors;
  for (const Way& way : set.ways) {
    if (way.of_family()) donors.push_back(&way);
  }
  std::vector<double> logs(donors.size());
  for (std::size_t k = 0; k < donors.size(); ++k) logs[k] = donors[k]->log_weight + donor_log_[donors[k]->donors.front().first];
  set.together.log = log_sum(logs);
  for (std::size_t i = 0; i < features_.size(); ++i) {
    for (std::size_t k = 0; k < donors.size(); ++k) {
      logs[k] = donors[k]->log_weight;
      for (std::size_t j = 0; j < features_.size(); ++j) logs[k] += j == i ? 0 : features_[j].log(donor_column(donors[k]->donors.front().first, j));
    }
    const double all = log_sum(logs);
    set.together.log_others.push_back(all);
    auto& left = set.together.left.emplace_back(features_[i].feature().value_count(), 0.0);
    if (all == log_zero) continue;
    for (std::size_t k = 0; k < donors.size(); ++k) {
      const double share = std::exp(logs[k] - all);
      const std::vector<double>& there = features_[i].there(donor_column(donors[k]->donors.front().first, i));
      for (std::size_t v = 0; v < left.size(); ++v) left[v] += share * there[v];
    }
  }
}

const AssemblyLikelihood::WaySet& AssemblyLikelihood::set_of(const Target& target) const {
  static const WaySet none{0, {}, {}, {}};
  for (const WaySet& s : way_sets_) {
    if (s.donor_group == target.donor_group && s.changes == target.changes) return s;
  }
  return none;
}

double AssemblyLikelihood::log_way(const Way& way, const Target& target, std::optional<std::size_t> skip) const {
  if (way.of_family() && !skip) return donor_log_[way.donors.front().first];
  double sum = 0;
  for (std::size_t i = 0; i < features_.size(); ++i) {
    if (skip && *skip == i) continue;
    if (way.of_family()) {
      sum += features_[i].log(donor_column(way.donors.front().first, i));
      continue;
    }
    const auto& sets = tables_.changes[*way.change].sets;
    const auto at = std::find_if(sets.begin(), sets.end(), [&](const auto& s) { return s.first == features_[i].index(); });
    sum += at == sets.end() ? features_[i].log(target.columns[i]) : std::log(features_[i].given()[at->second]);
  }
  return sum;
}

const std::vector<double>& AssemblyLikelihood::way_values(const Way& way, const Target& target, std::size_t i) const {
  if (way.of_family()) return features_[i].there(donor_column(way.donors.front().first, i));
  const auto& sets = tables_.changes[*way.change].sets;
  const auto at = std::find_if(sets.begin(), sets.end(), [&](const auto& s) { return s.first == features_[i].index(); });
  return at == sets.end() ? features_[i].there(target.columns[i]) : certain_[i][at->second];
}

double AssemblyLikelihood::log(const Target& target) const {
  std::vector<double> terms;
  double intact = log_intact_;
  for (std::size_t i = 0; i < features_.size(); ++i) intact += features_[i].log(target.columns[i]);
  terms.push_back(intact);
  for (const Way& way : ways(target)) {
    if (!way.of_family()) terms.push_back(way.log_weight + log_way(way, target, std::nullopt));
  }
  terms.push_back(donors(target).log);
  return log_sum(terms);
}

}  // namespace exworks
