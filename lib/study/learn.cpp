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
      const bool changed = found[f]->confirmed == Confirmed::changed;
      count(out.altered[t_.features[f].id], changed);
      if (const auto& of_class = t_.features[f].change_class) count(out.classes[change_class_words[static_cast<std::size_t>(*of_class)]], changed);
      if (changed) change(FeatureIndex{f}, found[f]->value, out);
    }
    const std::vector<double> levels = levels_of(found, as_one);
    out.alteration.resize(levels.size(), 0.0);
    for (std::size_t l = 0; l < levels.size(); ++l) out.alteration[l] += levels[l];
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
  void change(FeatureIndex f, const std::string& value, LearnedRates& out) const {
    for (std::size_t c : t_.features[f].changes) ++out.changes[t_.changes[c].id].n;
    for (std::size_t c : t_.features[f].changes) {
      if (t_.value_id(f, t_.changes[c].sets.front().value) != value) continue;
      ++out.changes[t_.changes[c].id].changed;
      return;
    }
    if (!value.empty() && value.find(' ') == std::string::npos) count(out.foreign[t_.features[f].id], value == "other");
  }

  /// [level]: how much this vehicle was altered, by what was changed on it and what was not.
  std::vector<double> levels_of(const std::vector<const Observation*>& found, const std::vector<bool>& as_one) const {
    std::vector<double> p = t_.rates.alteration_share;
    double all = 0;
    for (std::size_t l = 0; l < p.size(); ++l) {
      const auto weigh = [&](double rate, bool changed) {
        const double e = at_level(rate, t_.rates.alteration[l]);
        p[l] *= changed ? e : 1 - e;
      };
      for (std::size_t a = 0; a < as_one.size(); ++a) {
        const auto& features = t_.assemblies[a].features;
        if (std::any_of(features.begin(), features.end(), [&](std::size_t f) { return found[f] != nullptr; })) weigh(t_.assemblies[a].replaced, as_one[a]);
      }
      for (std::size_t f = 0; f < found.size(); ++f) {
        if (found[f] != nullptr && !(t_.features[f].assembly && as_one[*t_.features[f].assembly])) weigh(t_.features[f].altered, found[f]->confirmed == Confirmed::changed);
      }
      all += p[l];
    }
    for (double& x : p) x /= all;
    return p;
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
    if (const auto foreign = out.foreign.find(f.id); foreign != out.foreign.end()) foreign->second.rate = updated(f.foreign, prior_vehicles, foreign->second);
    double shares = 0;
    for (std::size_t c : f.changes) shares += t.changes[c].share;
    for (std::size_t c : f.changes) {
      const auto change = out.changes.find(t.changes[c].id);
      if (change != out.changes.end()) change->second.rate = updated(t.changes[c].share / shares, prior_vehicles, change->second);
    }
  }
  for (std::size_t c = 0; c < change_classes; ++c) {
    const auto at = out.classes.find(change_class_words[c]);
    if (at != out.classes.end()) at->second.rate = updated(t.rates.of_class[c], prior_vehicles, at->second);
  }
  for (std::size_t l = 0; l < out.alteration.size(); ++l) {
    out.alteration[l] = (t.rates.alteration_share[l] * prior_vehicles + out.alteration[l]) / (prior_vehicles + static_cast<double>(out.vehicles));
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
  if (!rates.alteration.empty() && rates.alteration.size() != t.rates.alteration.size()) {
    d.error({file, 0, 0}, "these rates have " + std::to_string(rates.alteration.size()) + " levels of alteration, the pack has " + std::to_string(t.rates.alteration.size()), "learn the rates again with this pack");
    return;
  }
  if (!rates.alteration.empty()) t.rates.alteration_share = rates.alteration;
  for (FeatureInfo& f : t.features) {
    if (!f.change_class) continue;
    const auto at = rates.classes.find(change_class_words[static_cast<std::size_t>(*f.change_class)]);
    if (at != rates.classes.end()) f.altered = std::clamp(at->second.rate, 0.0001, 0.9);
  }
  apply(rates.foreign, "feature", t.features, [](FeatureInfo& f, double rate) { f.foreign = rate; });
  apply(rates.altered, "feature", t.features, [](FeatureInfo& f, double rate) { f.altered = rate; });
  apply(rates.replaced, "assembly", t.assemblies, [](AssemblyInfo& a, double rate) { a.replaced = rate; });
  apply(rates.changes, "later change", t.changes, [](ChangeInfo& c, double rate) { c.share = rate; });
}

}  // namespace exworks
