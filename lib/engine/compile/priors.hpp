#pragma once
#include <vector>

#include "pack/model/pack.hpp"

namespace exworks {

/// P(b): [route][month - route.first], not yet normalised. From the variants' units and the pack's volume rows, else even
/// over the months of a variant's window; markets by their shares, and within a market the plants by theirs.
std::vector<std::vector<double>> build_weights(const Pack& pack, const std::vector<Route>& routes);

}  // namespace exworks
