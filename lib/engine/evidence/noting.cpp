#include "engine/evidence/noting.hpp"

#include <algorithm>
#include <numeric>

namespace exworks {

namespace {

constexpr double least_right = 0.1;  // whatever the rates say, the value that is there is noted now and then

bool names(const FeatureInfo& feature, std::size_t value, std::size_t other) {
  const auto& like = feature.values[value].looks_like;
  return std::find(like.begin(), like.end(), other) != like.end();
}

const AlikePair* pair_of(const FeatureInfo& feature, std::size_t a, std::size_t b) {
  for (const AlikePair& p : feature.alike) {
    if ((p.a == a && p.b == b) || (p.a == b && p.b == a)) return &p;
  }
  return nullptr;
}

bool alike(const FeatureInfo& feature, std::size_t a, std::size_t b) { return names(feature, a, b) || names(feature, b, a) || pair_of(feature, a, b) != nullptr; }

}  // namespace

Trust trust_in(HowSeen how, HowSure sure) {
  const int own = sure == HowSure::guess ? 2 : sure == HowSure::probable ? 1 : 0;
  const auto less = static_cast<Sureness>(std::min(own + 1, 2)), said = static_cast<Sureness>(own);
  switch (how) {
    case HowSeen::told: return {less, said};
    case HowSeen::photo: return {less, less};
    default: return {said, said};
  }
}

NoteModel::NoteModel(const FeatureInfo& feature, const Rates& rates, Trust trust) {
  for (ValueIndex there; there < feature.values.size(); ++there) rows_.push_back(of_listed(feature, rates, trust, there));
  rows_.push_back(of_other(feature, rates, static_cast<std::size_t>(trust.listed)));
}

std::vector<double> NoteModel::of_listed(const FeatureInfo& feature, const Rates& rates, Trust trust, ValueIndex there) const {
  const auto step = static_cast<std::size_t>(trust.listed);
  const std::size_t n = feature.values.size();
  std::vector<double> row(n + 1, 0.0);
  std::vector<std::size_t> like;
  for (std::size_t v = 0; v < n; ++v) {
    if (v != there && alike(feature, there, v)) like.push_back(v);
  }
  for (std::size_t v : like) {
    const AlikePair* own = pair_of(feature, there, v);
    const double rate = own != nullptr ? own->rate * rates.confusion[step] / rates.confusion[0] : rates.confusion[step];
    row[v] += rate / static_cast<double>(like.size());
  }
  for (std::size_t v = 0; v < n; ++v) {
    if (v != there) row[v] += rates.wrong_line[step] / static_cast<double>(n - 1);
  }
  row[n] += rates.not_recognised[static_cast<std::size_t>(trust.foreign)];
  const double wrong = std::accumulate(row.begin(), row.end(), 0.0);
  if (wrong > 1 - least_right) {
    for (double& p : row) p *= (1 - least_right) / wrong;
  }
  row[there] = 1 - std::min(wrong, 1 - least_right);
  return row;
}

std::vector<double> NoteModel::of_other(const FeatureInfo& feature, const Rates& rates, std::size_t step) const {
  const std::size_t n = feature.values.size();
  std::vector<double> row(n + 1, 0.0);
  std::vector<std::size_t> taken_for;
  for (std::size_t v = 0; v < n; ++v) {
    if (names(feature, v, n)) taken_for.push_back(v);
  }
  if (taken_for.empty()) {
    taken_for.resize(n);
    std::iota(taken_for.begin(), taken_for.end(), std::size_t{0});
  }
  const double rate = n == 0 ? 0.0 : std::min(rates.taken_for_ours[step], 1 - least_right);
  for (std::size_t v : taken_for) row[v] = rate / static_cast<double>(taken_for.size());
  row[n] = 1 - rate;
  return row;
}

std::vector<double> NoteModel::given(const std::vector<ValueIndex>& left_open) const {
  std::vector<double> out(rows_.size(), 0.0);
  for (std::size_t there = 0; there < out.size(); ++there) {
    for (std::size_t o : left_open) out[there] += rows_[there][o];
  }
  return out;
}

}  // namespace exworks
