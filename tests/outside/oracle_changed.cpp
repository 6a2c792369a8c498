#include "oracle_changed.hpp"

namespace exworks::test::oracle {

namespace {

/// Known later changes that were possible on a build by the day of the inspection: [change].
Reals known_changes(const SmallPack& pack, const Feature& feature, const Build& build, std::optional<int> month) {
  Reals out;
  for (const Change& change : feature.changes) {
    const Real possible = month ? ramp(change.from, *month, 1) : 1;
    out.push_back(covers(pack, change.scope, build) ? Real{change.share} * possible : 0);
  }
  return out;
}

/// Values of other builds of the family, by their number; later ones more readily.
class Family {
 public:
  Family(const Builds& builds, const Feature& feature, const std::vector<Works>& works, Real later_weight)
      : made_(feature.values, 0), month_(feature.values, 0), later_weight_(later_weight) {
    for (std::size_t d = 0; d < builds.list.size(); ++d) {
      if (works[d].voice != Voice::spoken) continue;
      for (std::size_t v = 0; v < made_.size(); ++v) {
        const Real made = builds.p[d] * works[d].share[v];
        made_[v] += made;
        month_[v] += made * static_cast<Real>(builds.list[d].month);
      }
    }
    for (std::size_t v = 0; v < made_.size(); ++v) month_[v] = made_[v] > 0 ? month_[v] / made_[v] : 0;
  }

  /// [value]
  Reals of(const Works& works) const {
    Reals out(made_.size() + 1, 0);
    Real own_month = 0, own = 0;
    for (std::size_t v = 0; v < made_.size(); ++v) {
      if (made_[v] <= 0) continue;
      own_month += works.share[v] * month_[v];
      own += works.share[v];
    }
    for (std::size_t v = 0; v < made_.size(); ++v) {
      const bool later = own > 0 && month_[v] > own_month / own + 1e-9L;
      out[v] = made_[v] * (later ? later_weight_ : 1);
    }
    if (sum(out) <= 0) std::fill(out.begin(), out.end() - 1, Real{1});
    const Real all = sum(out);
    for (Real& share : out) share /= all;
    return out;
  }

 private:
  Reals made_, month_;  ///< [named value]: how many there are, and the mean month of those
  Real later_weight_;
};

Changed parts(const Reals& known, const Reals& family, Real foreign, Real known_share) {
  const Real all = sum(known), rest = all > 0 ? 1 - known_share : 1;
  Changed out{known, family, rest * foreign};
  for (Real& share : out.known) share *= all > 0 ? known_share / all : 0;
  for (Real& share : out.family) share *= rest * (1 - foreign);
  return out;
}

/// The mean over the builds of a month of which the pack speaks, part by part.
Changed mean_of(const Builds& builds, const std::vector<Works>& works, const std::vector<Changed>& changed, int month) {
  std::vector<Reals> known, family, outside;
  for (const Changed& c : changed) known.push_back(c.known), family.push_back(c.family), outside.push_back({c.outside});
  return {mean_over_spoken(builds, works, known, month), mean_over_spoken(builds, works, family, month),
          mean_over_spoken(builds, works, outside, month).at(0)};
}

}  // namespace

Reals all_of(const Feature& feature, const Changed& changed) {
  Reals out = changed.family;
  for (std::size_t j = 0; j < changed.known.size(); ++j) out[feature.changes[j].value] += changed.known[j];
  out.back() += changed.outside;
  return out;
}

std::vector<Changed> changed_to(const SmallPack& pack, const Builds& builds, const Feature& feature,
                                const std::vector<Works>& works, const std::vector<Works>& own, std::optional<int> month) {
  // A serial that is not the one stamped at the works may be any.
  if (feature.of_number) return {works.size(), Changed{{}, Reals(feature.values + 1, 1 / static_cast<Real>(feature.values + 1)), 0}};
  const Family family(builds, feature, works, pack.rates.later_weight);
  const Real foreign = feature.foreign.value_or(pack.rates.foreign);
  const auto of = [&](const std::vector<Works>& all) {
    std::vector<Changed> out;
    for (std::size_t b = 0; b < all.size(); ++b)
      out.push_back(parts(known_changes(pack, feature, builds.list[b], month), family.of(all[b]), foreign, pack.rates.known));
    return out;
  };
  std::vector<Changed> out = of(own);
  const std::vector<Changed> by_date = of(works);
  for (std::size_t b = 0; b < own.size(); ++b) {
    if (own[b].voice == Voice::unrelated) out[b] = mean_of(builds, works, by_date, builds.list[b].month);
  }
  return out;
}

Real altered(const SmallPack& pack, const Feature& feature) {
  if (feature.of_number) return pack.rates.number_error[0];
  if (feature.altered) return *feature.altered;
  return feature.kind.empty() ? pack.rates.altered : pack.rates.altered_of.at(feature.kind);
}

Real at_level(Real k, Real q) {
  return k * q / (1 - q + k * q);
}

}  // namespace exworks::test::oracle
