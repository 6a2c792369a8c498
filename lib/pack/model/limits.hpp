#pragma once
#include "base/diagnostic.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// Builds (variant x market x plant x month) that a pack may have at most. Each has a prior, a weight for every way of taking the evidence,
/// and while the tables are made a column of every feature: with 150 features some 100 MB and a few seconds. The largest family that a pack
/// was written for has 10 047, so twenty times that is no hindrance; beyond it stand mistakes, such as markets that no fact tells apart.
inline constexpr std::size_t build_limit = 200'000;

/// Reports axes and builds beyond the limits, counting the builds without making them. False when there are any: then neither routes()
/// nor compile() may be asked.
bool within_limits(const Pack& pack, Diagnostics& diagnostics);

}  // namespace exworks
