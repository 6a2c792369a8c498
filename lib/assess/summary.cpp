#include "assess/summary.hpp"

#include <algorithm>

namespace exworks {

VerdictCounts verdict_counts(const Assessment& a) {
  VerdictCounts out;
  for (const FeatureVerdict& f : a.features) out.add(f.verdict);
  return out;
}

std::vector<VerdictCounts> counts_by_place(const Tables& t, const Assessment& a) {
  std::vector<VerdictCounts> out(t.catalogue.places.size());
  for (const FeatureVerdict& f : a.features) {
    if (const std::size_t place = t.features[f.finding.feature].place; place < out.size()) out[place].add(f.verdict);
  }
  return out;
}

namespace {

bool from_donor(const FeatureVerdict& f) { return f.explained() != nullptr && (f.explained()->cause == Cause::donor || f.explained()->cause == Cause::unnamed_donor); }

}  // namespace

std::vector<ChangeGroup> change_groups(const Tables& t, const Assessment& a) {
  const auto same = [&](const FeatureVerdict& f, const FeatureVerdict& g) {
    if (const NamedChange* change = named_change(t, f); change != nullptr || named_change(t, g) != nullptr) return change == named_change(t, g);
    const auto& assembly = t.features[f.finding.feature].assembly;
    return from_donor(f) && from_donor(g) && assembly && assembly == t.features[g.finding.feature].assembly;
  };
  std::vector<ChangeGroup> groups;
  for (std::size_t i = 0; i < a.features.size(); ++i) {
    if (a.features[i].verdict != VerdictKind::later_change) continue;
    const auto at = std::find_if(groups.begin(), groups.end(), [&](const ChangeGroup& g) { return same(a.features[g.front()], a.features[i]); });
    if (at == groups.end()) groups.push_back({i});
    else at->push_back(i);
  }
  return groups;
}

GoingBack hours_to_go_back(const Assessment& a, const std::vector<ChangeGroup>& groups) {
  GoingBack out;
  for (const ChangeGroup& g : groups) {
    const double hours = a.features[g.front()].hours;
    out.hours += hours;
    out.all_known = out.all_known && hours > 0;
  }
  return out;
}

const FeatureVerdict* verdict_on(const Assessment& a, FeatureIndex feature) {
  const auto at = std::find_if(a.features.begin(), a.features.end(), [&](const FeatureVerdict& f) { return f.finding.feature == feature; });
  return at == a.features.end() ? nullptr : &*at;
}

}  // namespace exworks
