#include "study/coverage.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/parallel.hpp"
#include "engine/evidence/identity.hpp"
#include "engine/infer/simulate.hpp"
#include "engine/infer/simulate_number.hpp"
#include "study/draws.hpp"
#include "study/trial.hpp"

namespace exworks {

namespace {

constexpr double telling = 0.1;  // judgement: a change that touches fewer than one vehicle in ten dates none of them

double median(std::vector<int> windows) {
  if (windows.empty()) return 0;
  const auto middle = windows.begin() + static_cast<std::ptrdiff_t>(windows.size() / 2);
  std::nth_element(windows.begin(), middle, windows.end());
  return *middle;
}

class Surveyor {
 public:
  Surveyor(const Tables& tables, std::uint64_t seed) : t_(tables), seed_(seed) {}

  PackCoverage run(std::size_t n, std::size_t n_year) {
    PackCoverage out;
    out.simulated = n;
    out.seed = seed_;
    count(out);
    out.median_window_months = run_world(t_, right_world, n, seed_, 1.0).median_window_months;
    with_numbers(n, out);
    for (std::size_t g = 0; g < t_.axes.generations.size(); ++g) {
      out.generations.push_back(generation(g, n_year));
      silence(g, out);
    }
    std::stable_sort(out.silent.begin(), out.silent.end(), [](const SilentArea& a, const SilentArea& b) { return a.feature < b.feature; });
    return out;
  }

 private:
  void count(PackCoverage& out) const {
    out.features = t_.feature_index.size();
    for (const FeatureInfo& f : t_.features) {
      for (const FactInfo& fact : f.facts) {
        ++out.facts;
        const auto rests_on = [&](SourceKind kind) {
          return std::any_of(fact.sources.begin(), fact.sources.end(), [&](std::size_t s) { return t_.catalogue.sources[s].kind == kind; });
        };
        if (rests_on(SourceKind::published)) ++out.published;
        else if (rests_on(SourceKind::common_practice)) ++out.common_practice;
        else ++out.memory;
      }
    }
    for (const NumberInfo& n : t_.numbers) out.number_ranges += n.ranges.size();
  }

  /// The same vehicles as without numbers, each read with a number of its own.
  void with_numbers(std::size_t n, PackCoverage& out) const {
    std::vector<int> windows(n);
    std::vector<char> numbered(n, 0);
    in_parallel(n, [&](std::size_t i) {
      Random random(seed_of(seed_, i));
      SimulatedVehicle v = simulate_vehicle(t_, right_world, 1.0, random);
      if (auto number = simulate_identity_number(t_, v.route, v.month, random)) {
        v.evidence.numbers.push_back(std::move(*number));
        take_identity(t_, 0, v.evidence);
        numbered[i] = 1;
      }
      windows[i] = window_of(t_, v.evidence);
    });
    out.median_window_with_number_months = median(windows);
    out.share_with_number = n > 0 ? static_cast<double>(std::count(numbered.begin(), numbered.end(), 1)) / static_cast<double>(n) : 0;
  }

  GenerationCoverage generation(std::size_t g, std::size_t n_year) const {
    std::map<int, double> weight;  // by year
    double total = 0;
    for_builds(g, [&](const RouteInfo&, Month m, std::size_t build) {
      weight[m.year()] += t_.prior[build];
      total += t_.prior[build];
    });
    GenerationCoverage out;
    out.generation = g;
    for (const auto& [year, w] : weight) {
      if (w <= 0) continue;
      YearCoverage y;
      y.year = year;
      y.share = w / total;
      y.vehicles = n_year;
      y.dating = dating(g, year);
      if (n_year > 0) y.median_window_months = window(g, year, n_year);
      out.years.push_back(std::move(y));
    }
    return out;
  }

  template <class Use>
  void for_builds(std::size_t g, Use use) const {
    for (const RouteInfo& r : t_.routes) {
      if (t_.axes.variants[r.variant].generation != g) continue;
      for (Month m = r.first; m <= r.last; m = m + 1) use(r, m, r.first_build + static_cast<std::size_t>(m - r.first));
    }
  }

  double window(std::size_t g, int year, std::size_t n) const {
    Tables of_year = t_;  // only to draw from
    std::fill(of_year.prior.begin(), of_year.prior.end(), 0.0);
    for_builds(g, [&](const RouteInfo&, Month m, std::size_t build) {
      if (m.year() == year) of_year.prior[build] = t_.prior[build];
    });
    std::vector<int> windows(n);
    in_parallel(n, [&](std::size_t i) {
      Random random(seed_of(seed_ + static_cast<std::uint64_t>(year), i));
      windows[i] = window_of(t_, simulate_vehicle(of_year, right_world, 1.0, random).evidence);
    });
    return median(windows);
  }

  std::vector<std::size_t> dating(std::size_t g, int year) const {
    std::vector<std::size_t> out;
    for (std::size_t f = 0; f < t_.features.size(); ++f) {
      if (!t_.features[f].of_number && changes_within(f, g, year)) out.push_back(f);
    }
    return out;
  }

  bool changes_within(std::size_t f, std::size_t g, int year) const {
    for (const RouteInfo& r : t_.routes) {
      if (t_.axes.variants[r.variant].generation != g) continue;
      const Month from = std::max(r.first, Month::of(year, 1) - 1), to = std::min(r.last, Month::of(year, 12));
      if (from >= to || from.year() > year) continue;
      const Column& start = column(f, r, from);
      for (Month m = from + 1; m <= to; m = m + 1) {
        const Column& then = column(f, r, m);
        if (start.silent || then.silent || !start.applies || !then.applies) continue;
        for (std::size_t v = 0; v < start.share.size(); ++v) {
          if (std::abs(start.share[v] - then.share[v]) >= telling) return true;
        }
      }
    }
    return false;
  }

  const Column& column(std::size_t f, const RouteInfo& r, Month m) const {
    const std::size_t build = r.first_build + static_cast<std::size_t>(m - r.first);
    return t_.features[f].columns[t_.features[f].column_of[t_.cell_of[build]]];
  }

  void silence(std::size_t g, PackCoverage& out) const {
    for (std::size_t f = 0; f < t_.features.size(); ++f) {
      if (t_.features[f].of_number) continue;
      SilentArea area;
      double silent = 0, all = 0;
      for_builds(g, [&](const RouteInfo& r, Month m, std::size_t build) {
        const Column& c = column(f, r, m);
        if (!c.applies) return;
        all += t_.prior[build];
        if (!c.silent || t_.prior[build] <= 0) return;
        area.from = silent > 0 ? std::min(area.from, m) : m;
        area.to = silent > 0 ? std::max(area.to, m) : m;
        silent += t_.prior[build];
      });
      if (silent <= 0) continue;
      area.feature = f;
      area.generation = g;
      area.share = silent / all;
      out.silent.push_back(area);
    }
  }

  const Tables& t_;
  std::uint64_t seed_;
};

}  // namespace

PackCoverage pack_coverage(const Tables& tables, std::size_t n, std::size_t n_year, std::uint64_t seed) {
  return Surveyor(tables, seed).run(n, n_year);
}

}  // namespace exworks
