#pragma once
#include "engine/tables/tables.hpp"
#include "pack/model/pack.hpp"

namespace exworks {

/// Turns a pack without errors into tables. The only place where names become numbers.
Tables compile(const Pack& pack);

}  // namespace exworks
