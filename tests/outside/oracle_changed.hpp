#pragma once
#include "oracle_works.hpp"

/// R_f(.|b): what a feature was changed to by itself.
namespace exworks::test::oracle {

/// Its parts; they sum to 1.
struct Changed {
  Reals known;       ///< [change of the feature]
  Reals family;      ///< [value]
  Real outside = 0;  ///< `other`
};

/// [value]
Reals all_of(const Feature& feature, const Changed& changed);

/// [build], of vehicles that left the works with `own`: by date, or by the number of the vehicle. The family's vehicles, `works`, go
/// by date. `month`: of the inspection.
std::vector<Changed> changed_to(const SmallPack& pack, const Builds& builds, const Feature& feature,
                                const std::vector<Works>& works, const std::vector<Works>& own, std::optional<int> month);

/// The rate at which it is changed by itself, for an ordinary life.
Real altered(const SmallPack& pack, const Feature& feature);

/// Rate `q` where all odds of change are multiplied by `k`.
Real at_level(Real k, Real q);

}  // namespace exworks::test::oracle
