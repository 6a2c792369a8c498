#include "engine/infer/group.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <unordered_map>

namespace exworks {

Group::Group(const Tables& tables, const std::vector<Unit>& all, std::vector<std::size_t> units, std::vector<std::size_t> conversions, std::optional<Month> inspected)
    : t_(&tables), units_(std::move(units)), conversions_(std::move(conversions)) {
  for (std::size_t u : units_) {
    auto& row = bits_.emplace_back();
    for (std::size_t c : all[u].conversions()) row.push_back(static_cast<std::size_t>(std::find(conversions_.begin(), conversions_.end(), c) - conversions_.begin()));
  }
  for (double factor : tables.rates.alteration) {
    auto& row = share_.emplace_back();
    for (std::size_t c : conversions_) {
      const ConversionInfo& info = tables.conversions[c];
      row.push_back(at_level(possible_share(info.share, info.from, inspected), factor));
    }
  }
}

std::uint32_t Group::combination_of(std::size_t cell, std::vector<std::uint32_t> targets) {
  Combination c{std::move(targets), 0};
  for (std::size_t i = 0; i < conversions_.size(); ++i) {
    if (t_->conversions[conversions_[i]].scope[t_->cell_route[cell]]) c.possible |= 1u << i;
  }
  const auto [at, fresh] = index_.try_emplace(c, static_cast<std::uint32_t>(combinations_.size()));
  if (!fresh) return at->second;
  if (std::vector<std::uint32_t>& sets = sets_[c.possible]; sets.empty()) {
    for (std::uint32_t set = 0;; set = (set - c.possible) & c.possible) {
      sets.push_back(set);
      if (set == c.possible) break;
    }
  }
  combinations_.push_back(std::move(c));
  return at->second;
}

double Group::share(std::size_t level, std::size_t combination, std::uint32_t set) const {
  double p = 1;
  for (std::size_t i = 0; i < conversions_.size(); ++i) {
    const double had = (combinations_[combination].possible >> i & 1u) != 0 ? share_[level][i] : 0.0;
    p *= (set >> i & 1u) != 0 ? had : 1 - had;
  }
  return p;
}

Scenario Group::scenario(std::size_t level, std::size_t position, std::uint32_t set) const {
  Scenario out{level, 0};
  for (std::size_t bit = 0; bit < bits_[position].size(); ++bit) out.had |= (set >> bits_[position][bit] & 1u) << bit;
  return out;
}

void Group::weigh(const std::vector<Unit>& all, const std::vector<std::vector<Unit::Target>>& targets) {
  const std::size_t levels = share_.size();
  // log P of each unit's targets, when first asked for: combinations share them.
  std::vector<std::unordered_map<std::size_t, double>> logs(units_.size());  // [position], by scenario and target
  const auto log_of = [&](std::size_t i, Scenario s, std::uint32_t target) {
    const Unit& unit = all[units_[i]];
    const auto [at, fresh] = logs[i].try_emplace(unit.index(s) * targets[units_[i]].size() + target);
    if (fresh) at->second = unit.log(targets[units_[i]][target], s);
    return at->second;
  };
  log_p_.assign(levels, {});
  had_.assign(levels, {});
  std::vector<double> terms;
  for (std::size_t level = 0; level < levels; ++level) {
    for (std::size_t c = 0; c < combinations_.size(); ++c) {
      terms.clear();
      for (const std::uint32_t set : sets_of(c)) {
        double term = conversions_.empty() ? 0.0 : std::log(share(level, c, set));
        for (std::size_t i = 0; term > log_zero && i < units_.size(); ++i) term += log_of(i, scenario(level, i, set), combinations_[c].targets[i]);
        terms.push_back(term);
      }
      const double sum = log_sum(terms);
      log_p_[level].push_back(sum);
      if (conversions_.empty()) continue;
      for (double& term : terms) term = std::exp(term - sum);
      had_[level].push_back(terms);
    }
  }
}

std::vector<Group> find_groups(const Tables& tables, const std::vector<Unit>& units, std::optional<Month> inspected) {
  std::vector<std::size_t> root(units.size());
  std::iota(root.begin(), root.end(), std::size_t{0});
  const auto find = [&](std::size_t u) {
    while (root[u] != u) u = root[u];
    return u;
  };
  for (std::size_t c = 0; c < tables.conversions.size(); ++c) {
    std::optional<std::size_t> first;
    for (std::size_t u = 0; u < units.size(); ++u) {
      const auto& own = units[u].conversions();
      if (std::find(own.begin(), own.end(), c) == own.end()) continue;
      if (first) root[std::max(find(u), find(*first))] = std::min(find(u), find(*first));
      else first = u;
    }
  }
  std::vector<Group> out;
  for (std::size_t u = 0; u < units.size(); ++u) {
    if (find(u) != u) continue;
    std::vector<std::size_t> members, conversions;
    for (std::size_t w = u; w < units.size(); ++w) {
      if (find(w) == u) members.push_back(w);
    }
    for (std::size_t c = 0; c < tables.conversions.size(); ++c) {
      const bool touches = std::any_of(members.begin(), members.end(), [&](std::size_t w) {
        const auto& own = units[w].conversions();
        return std::find(own.begin(), own.end(), c) != own.end();
      });
      if (touches) conversions.push_back(c);
    }
    out.emplace_back(tables, units, std::move(members), std::move(conversions), inspected);
  }
  return out;
}

}  // namespace exworks
