#pragma once
#include <array>
#include <compare>

#include "oracle_tables.hpp"

/// What may have become of a vehicle: each way, and what it leaves of a feature.
namespace exworks::test::oracle {

inline constexpr std::size_t most_values = 5;  ///< four named ones and `other`
using Shares = std::array<Real, most_values>;  ///< [value]

/// How the parts of an assembly came to be there.
struct Way {
  Real p = 1;
  std::optional<std::size_t> donor{}, outside{};                 ///< of the family; named by the pack
  bool unnamed = false;                                          ///< from outside, named by nobody
  bool replaced() const { return donor || outside || unnamed; }  ///< else it is the vehicle's own
};

/// Of a feature that is in no assembly, only that it was not replaced.
std::vector<Way> ways(const PackTables& tables, std::optional<std::size_t> assembly, std::size_t build, Real level);

/// P(a conversion was had | build, level)
Real converted(const PackTables& tables, std::size_t conversion, std::size_t build, Real level);

/// Why a value is there.
struct Reason {
  enum class Kind {
    as_it_was,
    conversion,
    known_change,
    family_by_itself,
    outside_by_itself,
    donor,
    outside_donor,
    unnamed_donor
  };
  Kind kind = Kind::as_it_was;
  std::size_t index = 0;  ///< conversion of the pack, change of the feature, outside change of the pack
  auto operator<=>(const Reason&) const = default;
};

struct Fate {
  Reason reason;
  Shares there{};  ///< P(this, and the value is there); as it was: the value with which it left the works
};

/// Conversions that were had, by the bits of their places in the pack.
using Had = unsigned;

/// What may have become of one feature; they sum to 1. `own`, `changed`: F(.|b) and R(.|b) of this vehicle.
std::vector<Fate> fates(const PackTables& tables, std::size_t feature, const Works& own, const Changed& changed, const Way& way,
                        Had had, Real level);

}  // namespace exworks::test::oracle
