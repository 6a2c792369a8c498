#pragma once
#include "engine/infer/posterior.hpp"

namespace exworks {

/// How often a vehicle of the builds that remain, simulated from the pack with the same features observed in the same way,
/// would look at least as unlikely as this one: a posterior predictive check with the realised discrepancy
/// D(o,b) = -log P(o|b) (Gelman, Meng and Stern 1996; memory). Same evidence, same figure: the random numbers start from `seed`.
double fit_check(const Tables& tables, const Posterior& posterior, const Evidence& evidence, std::uint64_t seed, int draws);

}  // namespace exworks
