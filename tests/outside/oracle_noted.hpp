#pragma once
#include "oracle_builds.hpp"
#include "oracle_visit.hpp"

/// P(o|v): what an inspector notes.
namespace exworks::test::oracle {

/// 0 sure, 1 probable, 2 guess; what was told or seen on a photo counts one step less.
std::size_t doubt(const std::string& how, const std::string& sure);
/// P(noted | there): [noted], `other` last. `doubt_of_other`: where the look says that it is none of the named.
Reals noted(const Feature& feature, const PackRates& rates, std::size_t there, std::size_t doubt, std::size_t doubt_of_other);
inline Reals noted(const Feature& feature, const PackRates& rates, std::size_t there, std::size_t doubt_of_all) { return noted(feature, rates, there, doubt_of_all, doubt_of_all); }
/// The values that a look leaves open, in ascending order.
std::vector<std::size_t> left_open(const Feature& feature, const Look& look);
/// P(one of those is noted | each value that may be there): [there].
Reals noted_as(const Feature& feature, const PackRates& rates, const Look& look);

}  // namespace exworks::test::oracle
