#pragma once
#include <catch2/catch.hpp>

#include "oracle_more.hpp"

/// Packs so small that the tests work them out with a pocket calculator.
namespace exworks::test::oracle {

/// One generation, body, market and plant; so many variants, the first built in month 0 alone, the second in month 1 ...; as many
/// of each.
SmallPack hand_pack(std::size_t variants);
/// One more variant, sold in all markets.
void add_variant(SmallPack& pack, std::size_t generation, std::size_t body, int month, double units = 0);
/// One more market, in which everything is sold; the first has a share of 1.
void add_market(SmallPack& pack, double share, const std::string& country = "");
/// One more plant, which makes everything for all markets; the first has a share of 1.
void add_plant(SmallPack& pack, double share);
/// A feature of so many named values, of which nothing is said yet.
Feature plain_values(std::size_t values);
/// Another feature of so many named values, of which nothing is said yet.
Feature& add_plain(SmallPack& pack, std::size_t values);
/// What one variant had.
Fact of_variant(const SmallPack& pack, std::size_t variant, std::size_t value);
/// Only this member of the axis.
std::vector<bool> just(std::size_t members, std::size_t member);

/// Nobody errs in noting.
void with_clear_eyes(PackRates& rates);
/// All vehicles live an ordinary life.
void with_one_level(PackRates& rates);

/// Look at a feature and see one value, for sure.
Look saw(std::size_t feature, std::size_t value);

/// A figure worked out by hand.
Approx by_hand(Real due);
/// The same for a row of figures.
void check_row(const Reals& row, const Reals& due);

}  // namespace exworks::test::oracle
