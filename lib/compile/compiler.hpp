#pragma once
#include "compile/tables.hpp"
#include "pack/pack.hpp"

namespace exworks {

/// Turns a pack without errors into tables. The only place where names become numbers.
Tables compile(const Pack& pack);

}  // namespace exworks
