#pragma once
#include <vector>

#include "engine/evidence/evidence.hpp"
#include "engine/evidence/serial.hpp"

namespace exworks {

/// What an identity number says of the build that carries it.
struct IdentityLikelihood {
  std::vector<double> match;  ///< [build]: P(number as written | it is the build's own)
  std::vector<std::vector<double>> by_reading;  ///< [NumberRead::readings][build]: what each way of reading it has in that
  bool placed = false;        ///< a range of some build holds the serial
  double stranger = 0;        ///< P(number as written | it is not), the same for every build
};

/// A form by its period and scope, each code by its scope, and the serial by when it may have been issued. Slips cost a factor of ten each.
/// lib/handbook/papers-and-numbers.md.
IdentityLikelihood identity_likelihood(const Tables& tables, const NumberRead& read);

/// P(a number is miswritten or not the vehicle's own), before looking: by how it was come by, and by what was seen of its plate or stamping.
double not_own(const Rates& rates, const NumberSeen& seen);

/// Takes `evidence.numbers[read]` for the vehicle's identity number, and works out once what it says.
void take_identity(const Tables& tables, std::size_t read, Evidence& evidence);

/// The months in which a serial was issued, nine times in ten, by the ranges that hold it, for the routes in `routes` (empty: all). One entry a range.
struct SerialWindow {
  std::size_t range = 0;
  Month first, last;
};
std::vector<SerialWindow> serial_windows(const NumberInfo& number, std::size_t form, Serials serials, const RouteSet& routes);

}  // namespace exworks
