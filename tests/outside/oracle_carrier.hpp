#pragma once
#include "oracle_compare.hpp"

namespace exworks::test::oracle {

/// What rules/aldermoor-carrier says of six features, copied by hand into structs: axes, volumes, facts, changes and assemblies.
SmallPack carrier();
/// The pack's ids for them.
Names carrier_names();
/// An inspection of 2026, and the same as the engine reads it.
Visit carrier_visit(const std::vector<Look>& looks);
std::string carrier_visit_xml(const Visit& visit);

}  // namespace exworks::test::oracle
