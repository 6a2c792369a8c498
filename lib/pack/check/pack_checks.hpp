#pragma once
#include "base/diagnostic.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// What can only be judged when the whole pack is there: facts outside every build, standard facts that overlap, gaps
/// where the pack is silent, values nothing leads to, number ranges that overlap, assemblies without features.
void check_pack(const Pack& pack, Diagnostics& diagnostics);

}  // namespace exworks
