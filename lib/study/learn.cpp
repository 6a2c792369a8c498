#include "study/learn.hpp"

#include <algorithm>

namespace exworks {

namespace {

class Counter {
 public:
  explicit Counter(const Tables& tables) : t_(tables) {}

  void vehicle(const Inspection& inspection, LearnedRates& out) const {
    std::vector<const Observation*> found(t_.features.size(), nullptr);
    bool any = false;
    for (const Observation& o : inspection.observations) {
      const auto at = t_.feature_index.find(o.feature);
      if (!o.confirmed || at == t_.feature_index.end()) continue;
      found[at->second] = &o;
      any = true;
    }
    if (!any) return;
    ++out.vehicles;
    std::vector<bool> as_one(t_.assemblies.size(), false);
    for (std::size_t a = 0; a < as_one.size(); ++a) as_one[a] = assembly(a, found, out);
    for (std::size_t f = 0; f < found.size(); ++f) {
      if (found[f] == nullptr || (t_.features[f].assembly && as_one[*t_.features[f].assembly])) continue;
      count(out.altered[t_.features[f].id], found[f]->confirmed == Confirmed::changed);
      if (found[f]->confirmed == Confirmed::changed) change(f, found[f]->value, out);
    }
  }

 private:
  static void count(LearnedRate& rate, bool changed) {
    ++rate.n;
    rate.changed += changed;
  }

  bool assembly(std::size_t a, const std::vector<const Observation*>& found, LearnedRates& out) const {
    std::size_t known = 0, changed = 0;
    for (std::size_t f : t_.assemblies[a].features) {
      if (found[f] == nullptr) continue;
      ++known;
      changed += found[f]->confirmed == Confirmed::changed;
    }
    if (known < 2) return false;  // one feature can't tell a replaced assembly from a changed part
    const bool replaced = changed >= 2 && 2 * changed >= known;
    count(out.replaced[t_.assemblies[a].id], replaced);
    return replaced;
  }

  /// Which of the feature's known changes it was, by the value left behind.
  void change(std::size_t f, const std::string& value, LearnedRates& out) const {
    for (std::size_t c : t_.features[f].changes) ++out.changes[t_.changes[c].id].n;
    for (std::size_t c : t_.features[f].changes) {
      if (t_.value_id(f, t_.changes[c].sets.front().second) != value) continue;
      ++out.changes[t_.changes[c].id].changed;
      return;
    }
  }

  const Tables& t_;
};

/// Mean of a Beta posterior whose prior has mean `prior` and the weight of `vehicles`.
double updated(double prior, double vehicles, const LearnedRate& counts) {
  return (prior * vehicles + static_cast<double>(counts.changed)) / (vehicles + static_cast<double>(counts.n));
}

}  // namespace

LearnedRates learn_rates(const Tables& t, const std::vector<Inspection>& confirmed, double prior_vehicles) {
  LearnedRates out;
  out.family = t.family;
  out.pack_version = t.version;
  out.prior_vehicles = prior_vehicles;
  const Counter counter(t);
  for (const Inspection& i : confirmed) counter.vehicle(i, out);
  for (const FeatureInfo& f : t.features) {
    const auto at = out.altered.find(f.id);
    if (at != out.altered.end()) at->second.rate = updated(f.altered, prior_vehicles, at->second);
    double shares = 0;
    for (std::size_t c : f.changes) shares += t.changes[c].share;
    for (std::size_t c : f.changes) {
      const auto change = out.changes.find(t.changes[c].id);
      if (change != out.changes.end()) change->second.rate = updated(t.changes[c].share / shares, prior_vehicles, change->second);
    }
  }
  for (const AssemblyInfo& a : t.assemblies) {
    const auto at = out.replaced.find(a.id);
    if (at != out.replaced.end()) at->second.rate = updated(a.replaced, prior_vehicles, at->second);
  }
  return out;
}

void apply_rates(Tables& t, const LearnedRates& rates, const std::string& file, Diagnostics& d) {
  const auto apply = [&](const std::map<std::string, LearnedRate>& learned, const char* kind, auto& items, auto set) {
    for (const auto& [id, rate] : learned) {
      const auto at = std::find_if(items.begin(), items.end(), [&](const auto& item) { return item.id == id; });
      if (at == items.end()) d.error({file, 0, 0}, "pack '" + t.family + "' has no " + kind + " '" + id + "'", "learn the rates again with this pack");
      else set(*at, std::clamp(rate.rate, 0.0001, 0.9));
    }
  };
  if (rates.family != t.family) {
    d.error({file, 0, 0}, "these rates are of family '" + rates.family + "', not of '" + t.family + "'", "give the rates learned for this family");
    return;
  }
  apply(rates.altered, "feature", t.features, [](FeatureInfo& f, double rate) { f.altered = rate; });
  apply(rates.replaced, "assembly", t.assemblies, [](AssemblyInfo& a, double rate) { a.replaced = rate; });
  apply(rates.changes, "later change", t.changes, [](ChangeInfo& c, double rate) { c.share = rate; });
}

}  // namespace exworks
