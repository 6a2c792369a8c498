#pragma once
#include <optional>

#include "base/random.hpp"
#include "engine/evidence/evidence.hpp"

namespace exworks {

/// The identity number that the works could have given to a vehicle of this route and month, read without a slip: a form in
/// use then, codes that this route could have borne, and a serial issued about that month. Nothing when the pack has no
/// identity number, or no range that issued serials in that month.
std::optional<NumberRead> simulate_identity_number(const Tables& tables, std::size_t route, Month month, Random& random);

}  // namespace exworks
