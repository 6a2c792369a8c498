#pragma once
#include <cstddef>
#include <cstdint>

#include "engine/evidence/evidence.hpp"
#include "engine/tables/tables.hpp"

/// What every study of simulated vehicles needs.
namespace exworks {

/// Where the chance of the i-th vehicle begins: its own, so that figures are the same in whatever order the vehicles are drawn.
std::uint64_t seed_of(std::uint64_t seed, std::size_t i);

/// How many months the 90 % date set of this evidence spans.
int window_of(const Tables& tables, const Evidence& evidence);

}  // namespace exworks
