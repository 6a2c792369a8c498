#include "engine/infer/simulate.hpp"

#include <algorithm>
#include <map>

#include "engine/infer/feature_likelihood.hpp"
#include "engine/evidence/noting.hpp"

namespace exworks {

namespace {

constexpr double restored_share = 0.5;  // of a restored vehicle's features: brought to the year aimed at
constexpr double most_rate = 0.95;

class Simulator {
 public:
  Simulator(const Tables& tables, const World& world, Random& random) : t_(tables), w_(world), r_(random) {}

  SimulatedVehicle run(double coverage) {
    v_.build = r_.pick(t_.prior);
    for (std::size_t i = 0; i < t_.routes.size(); ++i) {
      if (t_.routes[i].first_build <= v_.build) v_.route = i;
    }
    const RouteInfo& route = t_.routes[v_.route];
    v_.month = route.first + static_cast<int>(v_.build - route.first_build);
    level_ = t_.rates.alteration[r_.pick(t_.rates.alteration_share)];
    common_shift_ = shift(w_.all_edges) - offset_months(t_.rates, r_.pick(t_.rates.offset_share));
    if (w_.restored && r_.unit() < 0.5) aim_ = restored_towards(route);
    conversions();
    for (std::size_t a = 0; a < t_.assemblies.size(); ++a) assembly(a, route.variant, coverage);
    for (FeatureIndex f; f < t_.features.size(); ++f) {
      if (!t_.features[f].assembly) feature(f, cell(), std::nullopt, coverage);
    }
    return std::move(v_);
  }

 private:
  int shift(int months) { return months == 0 ? 0 : static_cast<int>(r_.unit() * (2 * months + 1)) - months; }

  double rate(double by_pack) const { return std::min(most_rate, at_level(std::min(most_rate, by_pack * w_.rates), level_)); }

  /// The cell whose facts hold for a feature: that of the build, or of a month nearby where changeovers lie elsewhere.
  CellIndex cell() {
    const RouteInfo& route = t_.routes[v_.route];
    const int offset = static_cast<int>(v_.build - route.first_build) + common_shift_ + shift(w_.own_edges);
    return CellIndex{t_.cell_of[route.first_build + static_cast<std::size_t>(std::clamp(offset, 0, static_cast<int>(route.builds()) - 1))]};
  }

  /// Another build of the same generation: what the restorer took for right.
  std::size_t restored_towards(const RouteInfo& own) {
    std::vector<double> weight(t_.builds(), 0.0);
    for (const RouteInfo& r : t_.routes) {
      if (t_.axes.variants[r.variant].generation != t_.axes.variants[own.variant].generation) continue;
      for (std::size_t i = 0; i < r.builds(); ++i) weight[r.first_build + i] = t_.prior[r.first_build + i];
    }
    return t_.cell_of[r_.pick(weight)];
  }

  void conversions() {
    for (const ConversionInfo& c : t_.conversions) {
      if (!c.scope[v_.route] || r_.unit() >= rate(c.share)) continue;
      for (const auto& s : c.sets) {
        if (r_.unit() < s.surely) converted_[s.feature] = s.value;
      }
    }
  }

  void assembly(std::size_t index, std::size_t variant, double coverage) {
    const AssemblyInfo& a = t_.assemblies[index];
    const std::size_t column = a.column_of[t_.cell_of[t_.routes[v_.route].looks_like(v_.build - t_.routes[v_.route].first_build, -common_shift_)]];
    std::optional<std::size_t> donor, change;
    bool unnamed = false;
    if (r_.unit() < rate(a.replaced)) {
      const auto& known = a.columns[column].changes;
      std::vector<double> shares{t_.rates.unnamed_outside};
      double outside = 0;
      for (std::size_t c : known) {
        shares.push_back((1 - t_.rates.unnamed_outside) * t_.changes[c].share);
        outside += t_.changes[c].share;
      }
      shares.push_back((1 - t_.rates.unnamed_outside) * (1 - outside));
      const std::size_t picked = r_.pick(shares);
      if (picked == 0) unnamed = true;
      else if (picked <= known.size()) change = known[picked - 1];
      else donor = pick_donor(a, column, variant);
    }
    for (std::size_t i = 0; i < a.features.size(); ++i) {
      const FeatureIndex f{a.features[i]};
      if (t_.features[f].of_number) continue;
      if (donor) {
        donor_part(f, a.columns[*donor].columns[i], coverage);
        continue;
      }
      std::optional<ValueIndex> fixed;
      if (unnamed) fixed = from_outside(f);
      if (change) {
        for (const auto& [feature, value] : t_.changes[*change].sets) {
          if (feature == f) fixed = value;
        }
      }
      feature(f, cell(), fixed, coverage);
    }
  }

  std::size_t pick_donor(const AssemblyInfo& a, std::size_t column, std::size_t variant) {
    std::vector<double> weight = a.donors[a.donor_group[variant]];
    for (std::size_t d = 0; d < weight.size(); ++d) weight[d] *= a.mean_month[d] > a.mean_month[column] ? t_.rates.later_weight : 1.0;
    return r_.pick(weight);
  }

  ValueIndex from_outside(FeatureIndex f) {
    const std::size_t n = t_.features[f].values.size();
    return ValueIndex{r_.unit() < t_.rates.outside_other ? n : static_cast<std::size_t>(r_.unit() * static_cast<double>(n))};
  }

  /// What the works fitted; where the pack is silent, perhaps just what it fitted to the nearest relative.
  std::vector<double> works_shares(FeatureIndex f, ColumnIndex column) const {
    const FeatureInfo& info = t_.features[f];
    std::vector<double> share = info.columns[column].share;
    if (!w_.like_relatives || !info.columns[column].silent || !info.columns[column].mean_of.empty()) return share;
    std::vector<bool> named(info.value_count(), false);
    for (const FactInfo& fact : info.facts) named[fact.value] = true;
    const double all = static_cast<double>(std::count(named.begin(), named.end(), true));
    for (std::size_t v = 0; v < share.size(); ++v) share[v] = std::max(0.0, share[v] - (named[v] ? (1 - t_.rates.relative) / all : 0.0));
    return share;
  }

  void feature(FeatureIndex f, CellIndex cell, std::optional<ValueIndex> fixed, double coverage) {
    const FeatureInfo& info = t_.features[f];
    const ColumnIndex column = info.column_of[cell];
    const ValueIndex works{r_.pick(works_shares(f, column))};
    ValueIndex there = works;
    if (aim_ && r_.unit() < restored_share) there = ValueIndex{r_.pick(info.columns[info.column_of[*aim_]].share)};
    see(f, works, fixed.value_or(perhaps_changed(f, column, there)), coverage);
  }

  /// A part from a donor has a works value of its own.
  void donor_part(FeatureIndex f, ColumnIndex donor, double coverage) {
    const FeatureInfo& info = t_.features[f];
    const ValueIndex works{r_.pick(works_shares(f, info.column_of[cell()]))};
    see(f, works, perhaps_changed(f, donor, ValueIndex{r_.pick(info.columns[donor].share)}), coverage);
  }

  ValueIndex perhaps_changed(FeatureIndex f, ColumnIndex column, ValueIndex there) {
    if (r_.unit() >= rate(t_.features[f].altered)) return there;
    return ValueIndex{r_.pick(FeatureLikelihood(t_, f, nullptr, std::nullopt).changed_to(column))};
  }

  void see(FeatureIndex f, ValueIndex works, ValueIndex there, double coverage) {
    if (r_.unit() >= coverage) return;
    if (const auto at = converted_.find(f); at != converted_.end()) there = at->second;
    if (w_.outside > 0 && r_.unit() < w_.outside) there = t_.features[f].other();
    const double u = r_.unit();
    const Sureness sureness = u < 0.8 ? Sureness::sure : u < 0.95 ? Sureness::probable : Sureness::guess;
    const ValueIndex noted{r_.pick(NoteModel(t_.features[f], t_.rates, {sureness, sureness}).notes(there))};
    v_.evidence.seen.push_back(look(t_, f, {noted}, {sureness, sureness}));
    v_.as_built.push_back(there == works);
  }

  const Tables& t_;
  const World& w_;
  Random& r_;
  SimulatedVehicle v_;
  double level_ = 1;
  int common_shift_ = 0;
  std::optional<std::size_t> aim_;                 // the cell of the build that it was restored towards
  std::map<FeatureIndex, ValueIndex> converted_;
};

}  // namespace

SimulatedVehicle simulate_vehicle(const Tables& tables, const World& world, double coverage, Random& random) {
  return Simulator(tables, world, random).run(coverage);
}

}  // namespace exworks
