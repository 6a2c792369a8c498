#include "engine/infer/unit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace exworks {

namespace {

constexpr double hair = 1e-9;           // months: mean dates closer than this are one
constexpr std::size_t most_conversions = 16;
constexpr std::size_t npos = static_cast<std::size_t>(-1);

bool among(std::span<const std::size_t> items, std::size_t x) { return std::find(items.begin(), items.end(), x) != items.end(); }

}  // namespace

Unit::Unit(const Tables& tables, std::optional<std::size_t> assembly, std::vector<FeatureLikelihood> features, std::optional<Month> inspected)
    : t_(&tables), assembly_(assembly), features_(std::move(features)), levels_(tables.rates.alteration.size()) {
  find_conversions();
  if (assembly_) {
    const AssemblyInfo& a = tables.assemblies[*assembly_];
    for (const FeatureLikelihood& f : features_) positions_.push_back(static_cast<std::size_t>(std::find(a.features.begin(), a.features.end(), f.index()) - a.features.begin()));
    for (double factor : tables.rates.alteration) replaced_.push_back(at_level(a.replaced, factor));
    find_replacements(inspected);
  }
}

void Unit::find_conversions() {
  for (std::size_t c = 0; c < t_->conversions.size() && conversions_.size() < most_conversions; ++c) {
    const auto& sets = t_->conversions[c].sets;
    const bool touches = std::any_of(sets.begin(), sets.end(), [&](const auto& s) {
      return std::any_of(features_.begin(), features_.end(), [&](const FeatureLikelihood& f) { return f.index() == s.feature; });
    });
    if (touches) conversions_.push_back(c);
  }
}

std::vector<Unit::Overlay> Unit::overlays(std::uint32_t had) const {
  std::vector<Overlay> out(features_.size());
  for (std::size_t i = 0; i < features_.size(); ++i) {
    for (std::size_t c = 0; c < conversions_.size(); ++c) {
      if ((had >> c & 1u) == 0) continue;
      for (const auto& s : t_->conversions[conversions_[c]].sets) {
        if (s.feature != features_[i].index()) continue;
        // The later one lies on top of the earlier.
        for (auto& below : out[i].sets) below.share *= 1 - s.surely;
        out[i].keep *= 1 - s.surely;
        out[i].sets.push_back({conversions_[c], s.value, s.surely});
      }
    }
  }
  return out;
}

void Unit::find_replacements(std::optional<Month> inspected) {
  const AssemblyInfo& a = t_->assemblies[*assembly_];
  for (const AssemblyColumn& column : a.columns) {
    for (std::size_t group = 0; group < a.donors.size(); ++group) {
      const bool there = std::any_of(replacements_.begin(), replacements_.end(), [&](const Replacement& r) { return r.donor_group == group && r.changes == column.changes; });
      if (there) continue;
      Replacement r{group, column.changes, {}, t_->rates.unnamed_outside, 0};
      double named = 0;
      for (std::size_t c : column.changes) {
        const double share = possible_share(t_->changes[c].share, t_->changes[c].from, inspected);
        if (share <= 0) continue;
        r.outside.emplace_back(c, (1 - r.unnamed) * share);
        named += share;
      }
      r.family = (1 - r.unnamed) * (1 - named);
      replacements_.push_back(std::move(r));
    }
  }
  donors_.resize(a.columns.size());
  std::iota(donors_.begin(), donors_.end(), std::size_t{0});
  std::stable_sort(donors_.begin(), donors_.end(), [&](std::size_t x, std::size_t y) { return a.mean_month[x] < a.mean_month[y]; });
  std::map<std::vector<ColumnIndex>, std::size_t> known;
  for (std::size_t d = 0; d < donors_.size(); ++d) {
    donor_month_.push_back(a.mean_month[donors_[d]]);
    std::vector<ColumnIndex> columns;
    for (std::size_t p : positions_) columns.push_back(a.columns[donors_[d]].columns[p]);
    const auto [at, fresh] = known.emplace(columns, alike_.size());
    if (fresh) alike_.push_back({std::move(columns), {}});
    alike_[at->second].donors.push_back(d);
    alike_of_.push_back(at->second);
  }
  for (const auto& volume : a.donors) {
    auto& from = volume_from_.emplace_back(donors_.size() + 1, 0.0);
    for (std::size_t d = donors_.size(); d-- > 0;) from[d] = from[d + 1] + volume[donors_[d]];
  }
}

Unit::Target Unit::target_of(std::size_t cell, std::vector<ColumnIndex> columns) const {
  Target out{std::move(columns), 0, 0};
  if (!assembly_) return out;
  const AssemblyInfo& a = t_->assemblies[*assembly_];
  const std::size_t column = a.column_of[cell], group = a.donor_group[t_->routes[t_->cell_route[cell]].variant];
  const auto at = std::find_if(replacements_.begin(), replacements_.end(), [&](const Replacement& r) { return r.donor_group == group && r.changes == a.columns[column].changes; });
  out.replacement = static_cast<std::uint32_t>(at - replacements_.begin());
  out.first_later = static_cast<std::uint32_t>(std::upper_bound(donor_month_.begin(), donor_month_.end(), a.mean_month[column] + hair) - donor_month_.begin());
  return out;
}

double Unit::donor_weight(const Target& target, std::size_t donor) const {
  const double volume = t_->assemblies[*assembly_].donors[donor_group(target)][donors_[donor]];
  return volume * (donor >= target.first_later ? t_->rates.later_weight : 1.0);
}

const std::vector<double>& Unit::log_shares(const Target& target) const {
  std::vector<double>& out = log_shares_[{target.replacement, target.first_later}];
  if (!out.empty()) return out;
  out.assign(alike_.size(), 0.0);
  for (std::size_t d = 0; d < donors_.size(); ++d) out[alike_of_[d]] += donor_weight(target, d);
  for (double& share : out) share = std::log(share / donor_norm(target));
  return out;
}

double Unit::unnamed_share(std::size_t position, ValueIndex value) const {
  const FeatureLikelihood& f = features_[position];
  if (f.info().of_number) return 1.0 / static_cast<double>(f.values());
  const double other = t_->rates.outside_other;
  return value + 1 == f.values() ? other : (1 - other) / static_cast<double>(f.values() - 1);
}

/// With the conversions that were had on top of whatever the rest made probable.
double Unit::mixed(const Overlay& overlay, std::size_t position, double factor) const {
  double out = overlay.keep * factor;
  for (const auto& s : overlay.sets) out += s.share * features_[position].given()[s.value];
  return out;
}

Unit::Table& Unit::table(Scenario s) const {
  const auto [at, fresh] = tables_.try_emplace(index(s));
  Table& out = at->second;
  if (!fresh) return out;
  out.overlay = overlays(s.had);
  for (std::size_t i = 0; i < features_.size(); ++i) {
    auto& row = out.log_factor.emplace_back();
    for (std::size_t c = 0; c < features_[i].info().columns.size(); ++c) row.push_back(std::log(mixed(out.overlay[i], i, features_[i].likelihood(s.level, static_cast<ColumnIndex>(c)))));
    double p = 0;
    for (ValueIndex v; v < features_[i].values(); ++v) p += features_[i].given()[v] * unnamed_share(i, v);
    out.log_unnamed.push_back(std::log(mixed(out.overlay[i], i, p)));
  }
  if (assembly_) sum_donors(out);
  return out;
}

void Unit::sum_donors(Table& table) const {
  for (const Alike& donors : alike_) {
    double sum = 0;
    for (std::size_t i = 0; i < features_.size(); ++i) sum += table.log_factor[i][donors.columns[i]];
    table.donor_log.push_back(sum);
  }
  for (const auto& volume : t_->assemblies[*assembly_].donors) {
    DonorSums sums{log_zero, std::vector<double>(donors_.size() + 1, 0.0)};
    for (std::size_t d = 0; d < donors_.size(); ++d) {
      if (volume[donors_[d]] > 0) sums.scale = std::max(sums.scale, table.donor_log[alike_of_[d]]);
    }
    for (std::size_t d = donors_.size(); d-- > 0;) {
      const double v = volume[donors_[d]];
      sums.from[d] = sums.from[d + 1] + (v > 0 && sums.scale > log_zero ? v * std::exp(table.donor_log[alike_of_[d]] - sums.scale) : 0.0);
    }
    table.donor_sums.push_back(std::move(sums));
  }
}

template <class Rest, class States>
Unit::DonorStates Unit::sum_states(const Table& at, std::size_t group, std::size_t values, Rest&& rest, States&& states) const {
  DonorStates out{log_zero, std::vector<double>((donors_.size() + 1) * values, 0.0)};
  const std::vector<double>& volume = t_->assemblies[*assembly_].donors[group];
  std::vector<double> log_rest;              // [donors that are alike]: log P(noted of the others | donor)
  std::vector<std::vector<double>> there;    // [donors that are alike]
  for (const Alike& donors : alike_) {
    double sum = 0;
    for (std::size_t i = 0; i < features_.size(); ++i) sum += rest(i) ? at.log_factor[i][donors.columns[i]] : 0.0;
    log_rest.push_back(sum);
    states(donors.columns, there.emplace_back(values, 0.0));
  }
  for (std::size_t d = 0; d < donors_.size(); ++d) {
    if (volume[donors_[d]] > 0) out.scale = std::max(out.scale, log_rest[alike_of_[d]]);
  }
  for (std::size_t d = donors_.size(); d-- > 0;) {
    const double v = volume[donors_[d]];
    const double p = v > 0 && out.scale > log_zero ? v * std::exp(log_rest[alike_of_[d]] - out.scale) : 0.0;
    for (std::size_t x = 0; x < values; ++x) out.from[d * values + x] = out.from[(d + 1) * values + x] + (p > 0 ? p * there[alike_of_[d]][x] : 0.0);
  }
  return out;
}

const Unit::DonorStates& Unit::donor_states(Scenario s, std::size_t group, std::size_t position, std::optional<std::size_t> without) const {
  Table& at = table(s);
  const auto [slot, fresh] = at.donor_states.try_emplace({group, position, without.value_or(npos)});
  if (!fresh) return slot->second;
  const FeatureLikelihood& f = features_[position];
  slot->second = sum_states(at, group, f.values(), [&](std::size_t i) { return i != position && i != without; },
                            [&](const std::vector<ColumnIndex>& columns, std::vector<double>& out) {
                              for (ValueIndex v; v < out.size(); ++v) out[v] = f.there(s.level, columns[position], v);
                            });
  return slot->second;
}

std::vector<double> Unit::donor_pairs(const Target& target, Scenario s, std::size_t first, std::size_t second, double log_p) const {
  const double log_share = log_share_of_family(target, s);
  if (log_share == log_zero) return {};
  Table& at = table(s);
  const FeatureLikelihood &f = features_[first], &g = features_[second];
  const std::size_t n = f.values(), m = g.values();
  const auto [slot, fresh] = at.donor_pairs.try_emplace({donor_group(target), first, second});
  if (fresh) {
    slot->second = sum_states(at, donor_group(target), n * m, [&](std::size_t i) { return i != first && i != second; },
                              [&](const std::vector<ColumnIndex>& columns, std::vector<double>& out) {
                                for (ValueIndex x; x < n; ++x) {
                                  for (ValueIndex y; y < m; ++y) out[x * m + y] = f.there(s.level, columns[first], x) * g.there(s.level, columns[second], y);
                                }
                              });
  }
  const DonorStates& sums = slot->second;
  const double weight = std::exp(log_share + sums.scale - log_p);
  std::vector<double> out(n * m);
  for (std::size_t x = 0; x < out.size(); ++x) out[x] = weight * (sums.from[x] + (t_->rates.later_weight - 1) * sums.from[target.first_later * n * m + x]);
  overlay_pairs(at.overlay[first], at.overlay[second], n, m, out);
  return out;
}

/// Lays the conversions that were had on a joint of two positions.
void Unit::overlay_pairs(const Overlay& first, const Overlay& second, std::size_t n, std::size_t m, std::vector<double>& joint) {
  for (std::size_t y = 0; y < m && !first.sets.empty(); ++y) {
    double all = 0;
    for (std::size_t x = 0; x < n; ++x) {
      all += joint[x * m + y];
      joint[x * m + y] *= first.keep;
    }
    for (const auto& set : first.sets) joint[set.value * m + y] += set.share * all;
  }
  for (std::size_t x = 0; x < n && !second.sets.empty(); ++x) {
    double all = 0;
    for (std::size_t y = 0; y < m; ++y) {
      all += joint[x * m + y];
      joint[x * m + y] *= second.keep;
    }
    for (const auto& set : second.sets) joint[x * m + set.value] += set.share * all;
  }
}

/// log of what a donor's volume is multiplied by: P(replaced by one of the family), over the volume of all.
double Unit::log_share_of_family(const Target& target, Scenario s) const {
  if (!assembly_ || replaced_[s.level] <= 0) return log_zero;
  const double family = replacements_[target.replacement].family, norm = donor_norm(target);
  return family > 0 && norm > 0 ? std::log(replaced_[s.level] * family / norm) : log_zero;
}

Unit::DonorOdds::DonorOdds(const Unit& unit, Scenario s, std::size_t group) : unit_(unit), s_(s), group_(group), from_(unit.donors_.size() + 1, 0.0) {}

double Unit::DonorOdds::add(const Target& target, double mass, double log_p) {
  const double log_share = unit_.log_share_of_family(target, s_);
  if (log_share == log_zero) return 0;
  const DonorSums& sums = unit_.table(s_).donor_sums[group_];
  const double weight = mass * std::exp(log_share + sums.scale - log_p), more = (unit_.t_->rates.later_weight - 1) * weight;
  from_.front() += weight;
  from_[target.first_later] += more;
  return weight * sums.from.front() + more * sums.from[target.first_later];
}

void Unit::DonorOdds::take(std::vector<double>& by_column) const {
  const Table& at = unit_.table(s_);
  const std::vector<double>& volume = unit_.t_->assemblies[*unit_.assembly_].donors[group_];
  double coefficient = 0;
  for (std::size_t d = 0; d < unit_.donors_.size(); ++d) {
    coefficient += from_[d];
    const double v = volume[unit_.donors_[d]];
    if (v > 0 && coefficient > 0) by_column[unit_.donors_[d]] += coefficient * v * std::exp(at.donor_log[unit_.alike_of_[d]] - at.donor_sums[group_].scale);
  }
}

double Unit::donor_norm(const Target& target) const {
  const auto& from = volume_from_[replacements_[target.replacement].donor_group];
  return from.front() + (t_->rates.later_weight - 1) * from[target.first_later];
}

double Unit::plain_product(const std::vector<ColumnIndex>& columns, Scenario s, std::span<const std::size_t> without) const {
  double sum = 0;
  for (std::size_t i = 0; i < features_.size(); ++i) {
    if (!among(without, i)) sum += table(s).log_factor[i][columns[i]];
  }
  return sum;
}

std::optional<ValueIndex> Unit::set_by(std::size_t change, std::size_t position) const {
  for (const auto& [feature, value] : t_->changes[change].sets) {
    if (feature == features_[position].index()) return value;
  }
  return std::nullopt;
}

double Unit::outside_product(const Target& target, Scenario s, std::size_t change, std::span<const std::size_t> without) const {
  double sum = 0;
  for (std::size_t i = 0; i < features_.size(); ++i) {
    if (among(without, i)) continue;
    const auto value = set_by(change, i);
    sum += value ? std::log(mixed(table(s).overlay[i], i, features_[i].given()[*value])) : table(s).log_factor[i][target.columns[i]];
  }
  return sum;
}

double Unit::unnamed_product(Scenario s, std::span<const std::size_t> without) const {
  double sum = 0;
  for (std::size_t i = 0; i < features_.size(); ++i) {
    if (!among(without, i)) sum += table(s).log_unnamed[i];
  }
  return sum;
}

double Unit::log(const Target& target, Scenario s) const {
  const double intact = plain_product(target.columns, s, {});
  if (!assembly_) return intact;
  const double c = replaced_[s.level];
  const Replacement& r = replacements_[target.replacement];
  std::vector<double> terms{std::log1p(-c) + intact};
  for (const auto& [change, share] : r.outside) terms.push_back(std::log(c * share) + outside_product(target, s, change, {}));
  if (r.unnamed > 0) terms.push_back(std::log(c * r.unnamed) + unnamed_product(s, {}));
  const DonorSums& sums = table(s).donor_sums[r.donor_group];
  const double donors = (sums.from.front() + (t_->rates.later_weight - 1) * sums.from[target.first_later]) / donor_norm(target);
  if (r.family > 0 && donors > 0) terms.push_back(std::log(c * r.family * donors) + sums.scale);
  return log_sum(terms);
}

}  // namespace exworks
