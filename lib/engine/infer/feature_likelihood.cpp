#include "engine/infer/feature_likelihood.hpp"

#include <algorithm>

namespace exworks {

namespace {

constexpr double hair = 1e-9;  // months: mean dates closer than this are one

}  // namespace

double possible_share(double share, const std::optional<Edge>& from, std::optional<Month> inspected) {
  return from && inspected ? share * share_after(*from, *inspected) : share;
}

FeatureLikelihood::FeatureLikelihood(const Tables& tables, FeatureIndex feature, const std::vector<double>* given, std::optional<Month> inspected)
    : index_(feature), info_(&tables.features[feature]) {
  given_ = given != nullptr ? *given : std::vector<double>(info_->value_count(), 1.0);
  // Whether a number is miswritten or not its own has nothing to do with how much the vehicle was altered.
  for (double factor : tables.rates.alteration) altered_.push_back(info_->of_number ? info_->altered : at_level(info_->altered, factor));
  for (const Column& column : info_->columns) parts_.push_back(parts_of(tables, column, inspected));
  for (std::size_t c = 0; c < parts_.size(); ++c) {
    if (!info_->columns[c].mean_of.empty()) parts_[c] = mean_of(info_->columns[c]);
    add_column(tables, parts_[c]);
  }
}

Changed FeatureLikelihood::parts_of(const Tables& tables, const Column& column, std::optional<Month> inspected) const {
  Changed out;
  if (info_->of_number) {
    out.family.assign(values(), 1.0 / static_cast<double>(values()));
    return out;
  }
  double sum = 0;
  for (std::size_t c : column.changes) {
    const ChangeInfo& change = tables.changes[c];
    const double share = possible_share(change.share, change.from, inspected);
    if (share <= 0) continue;
    out.known.push_back({c, share});
    sum += share;
  }
  const double rest = sum > 0 ? 1 - tables.rates.known : 1.0;
  for (auto& k : out.known) k.share *= tables.rates.known / sum;
  out.outside = rest * info_->foreign;
  out.family = family_of(tables, column);
  for (double& p : out.family) p *= rest * (1 - info_->foreign);
  return out;
}

/// Kinds of the family by how many left the works with them; kinds that came later than this build's own are taken more readily.
std::vector<double> FeatureLikelihood::family_of(const Tables& tables, const Column& column) const {
  const std::size_t n = info_->values.size();
  std::vector<double> out(n + 1, 0.0);
  double own = 0, month = 0;
  for (std::size_t v = 0; v < n; ++v) {
    if (info_->volume[v] <= 0) continue;
    own += column.share[v];
    month += column.share[v] * info_->mean_month[v];
  }
  double sum = 0;
  for (std::size_t v = 0; v < n; ++v) {
    const bool later = own > 0 && info_->mean_month[v] > month / own + hair;
    out[v] = info_->volume[v] * (later ? tables.rates.later_weight : 1.0);
    sum += out[v];
  }
  for (std::size_t v = 0; v < n; ++v) out[v] = sum > 0 ? out[v] / sum : 1.0 / static_cast<double>(n);
  return out;
}

/// What a change leaves on a build without relatives.
Changed FeatureLikelihood::mean_of(const Column& column) const {
  Changed mean;
  mean.family.assign(values(), 0.0);
  for (const auto& [c, share] : column.mean_of) {
    for (std::size_t v = 0; v < mean.family.size(); ++v) mean.family[v] += share * parts_[c].family[v];
    for (const auto& k : parts_[c].known) {
      const auto at = std::find_if(mean.known.begin(), mean.known.end(), [&](const Changed::Known& m) { return m.change == k.change; });
      if (at == mean.known.end()) mean.known.push_back({k.change, share * k.share});
      else at->share += share * k.share;
    }
    mean.outside += share * parts_[c].outside;
  }
  return mean;
}

void FeatureLikelihood::add_column(const Tables& tables, Changed parts) {
  const Column& column = info_->columns[of_works_.size()];
  std::vector<double> changed = std::move(parts.family);
  for (const auto& k : parts.known) changed[tables.changes[k.change].sets.front().value] += k.share;
  changed.back() += parts.outside;
  double works = 0, other = 0;
  for (std::size_t v = 0; v < given_.size(); ++v) {
    works += given_[v] * column.share[v];
    other += given_[v] * changed[v];
  }
  of_works_.push_back(works);
  of_changed_.push_back(other);
  changed_.push_back(std::move(changed));
}

}  // namespace exworks
