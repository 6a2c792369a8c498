#include "engine/infer/simulate.hpp"

#include <algorithm>

#include "engine/infer/likelihood.hpp"

namespace exworks {

namespace {

class Simulator {
 public:
  Simulator(const Tables& tables, const World& world, Random& random) : t_(tables), w_(world), r_(random) {}

  SimulatedVehicle run(double coverage) {
    SimulatedVehicle v;
    v.build = r_.pick(t_.prior);
    for (std::size_t i = 0; i < t_.routes.size(); ++i) {
      if (t_.routes[i].first_build <= v.build) v.route = i;
    }
    const RouteInfo& route = t_.routes[v.route];
    const int offset = static_cast<int>(v.build - route.first_build);
    v.month = route.first + offset;
    // Where changeovers came later than the pack says, the vehicle has what the pack gives to an earlier month.
    const int shift = w_.shifted_months == 0 ? 0 : (r_.unit() < 0.5 ? -w_.shifted_months : w_.shifted_months);
    const int shifted = std::clamp(offset + shift, 0, static_cast<int>(route.builds()) - 1);
    cell_ = t_.cell_of[route.first_build + static_cast<std::size_t>(shifted)];
    for (std::size_t a = 0; a < t_.assemblies.size(); ++a) assembly(a, route.variant, coverage, v);
    for (std::size_t f = 0; f < t_.features.size(); ++f) {
      if (!t_.features[f].assembly) feature(f, t_.features[f].column_of[cell_], std::nullopt, false, coverage, v);
    }
    return v;
  }

 private:
  void assembly(std::size_t index, std::size_t variant, double coverage, SimulatedVehicle& v) {
    const AssemblyInfo& a = t_.assemblies[index];
    const bool replaced = r_.unit() < std::min(0.95, a.replaced * w_.rates);
    std::optional<std::size_t> donor, change;
    if (replaced) {
      std::vector<double> shares;
      const auto& known = a.columns[a.column_of[cell_]].changes;
      double outside = 0;
      for (std::size_t c : known) {
        shares.push_back(t_.changes[c].share);
        outside += t_.changes[c].share;
      }
      shares.push_back(1 - outside);
      const std::size_t picked = r_.pick(shares);
      if (picked < known.size()) change = known[picked];
      else donor = r_.pick(a.donors[a.donor_group[variant]]);
    }
    for (std::size_t i = 0; i < a.features.size(); ++i) {
      const std::size_t f = a.features[i];
      if (t_.features[f].of_number) continue;
      std::optional<std::size_t> fixed;
      if (change) {
        for (const auto& [feature, value] : t_.changes[*change].sets) {
          if (feature == f) fixed = value;
        }
      }
      const ColumnIndex from = donor ? a.columns[*donor].columns[i] : t_.features[f].column_of[cell_];
      feature(f, from, fixed, donor.has_value(), coverage, v);
    }
  }

  /// `column`: of the vehicle that the part comes from. A part from a donor has a works value of its own.
  void feature(std::size_t f, ColumnIndex column, std::optional<std::size_t> fixed, bool from_donor, double coverage, SimulatedVehicle& v) {
    if (r_.unit() >= coverage) return;
    const FeatureInfo& info = t_.features[f];
    const std::size_t works = r_.pick(info.columns[info.column_of[cell_]].share);
    std::size_t there = from_donor ? r_.pick(info.columns[column].share) : works;
    if (r_.unit() < std::min(0.95, info.altered * w_.rates)) {
      const FeatureLikelihood process(t_, f, nullptr, std::nullopt);
      there = r_.pick(process.changed_to(column));
    }
    if (fixed) there = *fixed;
    if (w_.outside_pack > 0 && r_.unit() < w_.outside_pack) there = info.other();
    note(f, there, there == works, v);
  }

  void note(std::size_t f, std::size_t there, bool as_built, SimulatedVehicle& v) {
    const double u = r_.unit();
    const double slip = slip_rate(t_, f, HowSeen::seen, u < 0.8 ? HowSure::sure : u < 0.95 ? HowSure::probable : HowSure::guess);
    const FeatureInfo& info = t_.features[f];
    std::vector<double> notes;
    for (std::size_t noted = 0; noted < info.value_count(); ++noted) notes.push_back(slip_model(info, noted, slip, t_.rates.look_alike)[there]);
    Seen seen;
    seen.feature = f;
    seen.value = r_.pick(notes);
    seen.slip = slip;
    seen.given = slip_model(info, seen.value, slip, t_.rates.look_alike);
    v.evidence.seen.push_back(std::move(seen));
    v.as_built.push_back(as_built);
  }

  const Tables& t_;
  const World& w_;
  Random& r_;
  std::size_t cell_ = 0;
};

}  // namespace

SimulatedVehicle simulate_vehicle(const Tables& tables, const World& world, double coverage, Random& random) {
  return Simulator(tables, world, random).run(coverage);
}

}  // namespace exworks
