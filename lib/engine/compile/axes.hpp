#pragma once
#include "engine/tables/catalogue.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// The axes of a pack, so that a scope of it can be put into words as one of the tables is.
Axes axes_of(const Pack& pack);

}  // namespace exworks
