#pragma once
#include <vector>

#include "engine/evidence/evidence.hpp"

namespace exworks {

/// What an identity number says of the build that carries it.
struct IdentityLikelihood {
  std::vector<double> match;  ///< [build]: P(number as written | it is the build's own)
  std::vector<std::vector<double>> by_reading;  ///< [NumberRead::readings][build]: what each way of reading it has in that
  double stranger = 0;        ///< P(number as written | it is not), the same for every build
};

/// A form by its period and scope, each code by its scope, and the serial even over the numbers that were issued in the
/// build's month, give or take the range's spread. Slips cost a factor of ten each.
IdentityLikelihood identity_likelihood(const Tables& tables, const NumberRead& read);

/// Takes `evidence.numbers[read]` for the vehicle's identity number, and works out once what it says.
void take_identity(const Tables& tables, std::size_t read, Evidence& evidence);

/// The months in which a serial was issued by the ranges that hold it, for the routes in `routes` (empty: all). One entry a range.
struct SerialWindow {
  std::size_t range = 0;
  Month first, last;
};
std::vector<SerialWindow> serial_windows(const NumberInfo& number, std::size_t form, std::int64_t serial, const RouteSet& routes);

}  // namespace exworks
