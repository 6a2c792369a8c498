#pragma once
#include "base/date.hpp"
#include "base/rates.hpp"
#include "pack/model/pack.hpp"

/// When a changeover fell, as far as its source can be trusted. lib/handbook/the-arithmetic.md, "When a changeover fell".
namespace exworks {

/// Months either side of its window within which an edge of a fact is trusted to lie. `tied`: a number begins or ends the fact there.
int edge_months(const Pack& pack, const Fact& fact, bool tied);

/// Share of the vehicles of month `m` that are past the edge; it lies up to `within` months off, or anywhere within a year.
double past(const Edge& edge, Month m, int within, const Rates& rates);

/// The furthest that `past` moves either side of an edge.
int reach_of(int within, const Rates& rates);

}  // namespace exworks
