#include "oracle_hand.hpp"

/// Where it stands, and markets whose shares change (section 12), by hand. .6 of the vehicles in a country were sold new there
/// (common practice, no source).
using namespace exworks::test::oracle;

namespace {

/// Shares 3 : 1 : 4 of one month: home, the country itself, and another market of nowhere in particular.
SmallPack three_markets() {
  SmallPack pack = hand_pack(1);
  pack.markets[0] = {3, "GB"};
  add_market(pack, 1, "AU");
  add_market(pack, 4);
  return pack;
}

Reals odds(const SmallPack& pack, const std::string& country) {
  Visit visit;
  visit.country = country;
  return Model(pack, visit).answer().build;
}

}  // namespace

TEST_CASE("Oracle: a vehicle was likelier sold where it stands", "[outside][oracle][by-hand]") {
  check_row(odds(three_markets(), ""), {0.375L, 0.125L, 0.5L});
  check_row(odds(three_markets(), "AU"), {0.15L, 0.6L + 0.05L, 0.2L});
  check_row(odds(three_markets(), "GB"), {0.6L + 0.15L, 0.05L, 0.2L});
  check_row(odds(three_markets(), "NZ"), {0.375L, 0.125L, 0.5L});  // no market is there
}

TEST_CASE("Oracle: two markets of one country share it by their numbers", "[outside][oracle][by-hand]") {
  SmallPack pack = three_markets();
  pack.markets[2].country = "AU";
  check_row(odds(pack, "AU"), {0.15L, 0.6L * 0.2L + 0.05L, 0.6L * 0.8L + 0.2L});
}

TEST_CASE("Oracle: where nothing was built for a country standing there says nothing", "[outside][oracle][by-hand]") {
  SmallPack pack = three_markets();
  pack.variants[0].markets = {true, false, true};
  check_row(odds(pack, "AU"), {3.0L / 7, 4.0L / 7});
}

TEST_CASE("Oracle: standing somewhere makes no part likelier", "[outside][oracle][by-hand]") {
  // What donors, relatives and later changes go by stays: here the mean of what a silent market had (.75, .25) and R of the
  // first.
  SmallPack pack = three_markets();
  Feature& feature = add_plain(pack, 2);
  feature.facts = {{0}, {1}};
  feature.facts[0].scope.markets = just(3, 0);
  feature.facts[1].scope.markets = just(3, 1);
  Visit visit;
  visit.country = "AU";
  const Model model(pack, visit);
  check_row(model.tables().works(0, 2).share, {0.75L, 0.25L, 0});
  check_row(all_of(pack.features[0], model.tables().changed(0, 0)), {0.45L, 0.15L, 0.4L});
}

TEST_CASE("Oracle: a row of shares holds in its months, both ends", "[outside][oracle][by-hand]") {
  // Four months in which as many were made; 1 : 3, and 1 : 1 in the two in the middle.
  SmallPack pack = hand_pack(4);
  add_market(pack, 3);
  pack.shares = {{1, {1, 2}, 1}};
  check_row(list_builds(pack).p, {0.0625L, 0.1875L, 0.125L, 0.125L, 0.125L, 0.125L, 0.0625L, 0.1875L});
}
