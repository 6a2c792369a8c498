#include "engine/evidence/measure.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace exworks {

std::optional<double> convert_unit(double amount, const std::string& from, const std::string& to) {
  static const std::map<std::string, std::pair<char, double>> units{
      {"mm", {'l', 1}}, {"in", {'l', 25.4}}, {"cc", {'v', 1}}, {"l", {'v', 1000}}, {"cu-in", {'v', 16.387064}},
      {"kg", {'m', 1}}, {"lb", {'m', 0.45359237}}, {"V", {'t', 1}}, {"none", {'n', 1}}};
  const auto a = units.find(from), b = units.find(to);
  if (a == units.end() || b == units.end() || a->second.first != b->second.first) return std::nullopt;
  return amount * a->second.second / b->second.second;
}

std::vector<ValueIndex> matching_values(const FeatureInfo& feature, double amount) {
  std::vector<ValueIndex> out;
  const auto distance = [&](ValueIndex v) { return std::abs(amount - *feature.values[v].measure); };
  for (ValueIndex v; v < feature.values.size(); ++v) {
    if (feature.values[v].measure && distance(v) <= feature.values[v].tolerance.value_or(0) + 1e-9) out.push_back(v);
  }
  std::stable_sort(out.begin(), out.end(), [&](ValueIndex a, ValueIndex b) { return distance(a) < distance(b); });
  return out;
}

std::vector<ValueIndex> values_within(const FeatureInfo& feature, double from, double to) {
  std::vector<ValueIndex> out;
  for (ValueIndex v; v < feature.values.size(); ++v) {
    if (!feature.values[v].measure) continue;
    const double reach = feature.values[v].tolerance.value_or(0) + 1e-9;
    if (*feature.values[v].measure + reach >= from && *feature.values[v].measure - reach <= to) out.push_back(v);
  }
  return out;
}

}  // namespace exworks
