#pragma once
#include "oracle.hpp"

/// What follows from the answer by asking it again: without a look, with one more, or of another vehicle.
namespace exworks::test::oracle {

/// What would stand if one look had not been made.
struct Without {
  Reals variants;     ///< [variant]
  Reals type, later;  ///< [look]: as built, or not, and the pack speaks; the one left out keeps its figure
};
std::vector<Without> leave_each_out(const Model& model);

/// What one more look can be expected to tell, in bits.
struct MoreToSee {
  std::size_t feature = 0;
  Real build_bits = 0;    ///< of variant, month, market and plant
  Real verdict_bits = 0;  ///< of its own "type as built" and those of the open features, added up
  Real applies = 0;       ///< P(the vehicle has such a feature)
  Reals noted;            ///< [value]
};
/// Every feature that was not looked at and that this vehicle may have, serials left out. `open`: looks.
std::vector<MoreToSee> look_ahead(const Model& model, const std::vector<std::size_t>& open);

/// P(a vehicle of the same build, number and level, looked at in the same way, is at least as unlikely as this one): every note
/// that could be made of it is visited. The looks note one value each.
Real fit(const Model& model);

}  // namespace exworks::test::oracle
