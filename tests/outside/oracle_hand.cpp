#include "oracle_hand.hpp"

#include <algorithm>

namespace exworks::test::oracle {

SmallPack hand_pack(std::size_t variants) {
  SmallPack out;
  out.generations = 1;
  out.markets = {{1, ""}};
  out.plants = {{1, {true}, {}}};
  for (std::size_t v = 0; v < variants; ++v) add_variant(out, 0, 0, static_cast<int>(v));
  return out;
}

void add_variant(SmallPack& pack, std::size_t generation, std::size_t body, int month, double units) {
  pack.generations = std::max(pack.generations, generation + 1);
  pack.bodies = std::max(pack.bodies, body + 1);
  const std::vector<bool> markets(pack.markets.size(), true), plants(pack.plants.size(), true);
  pack.variants.push_back({generation, body, markets, plants, {month, month}, 0, units, 0});
}

void add_market(SmallPack& pack, double share, const std::string& country) {
  pack.markets.push_back({share, country});
  for (Variant& variant : pack.variants) variant.markets.push_back(true);
  for (Plant& plant : pack.plants) plant.markets.push_back(true);
}

void add_plant(SmallPack& pack, double share) {
  pack.plants.push_back({share, std::vector<bool>(pack.markets.size(), true), {}});
  for (Variant& variant : pack.variants) variant.plants.push_back(true);
}

Feature plain_values(std::size_t values) {
  Feature out;
  out.values = values;
  return out;
}

Feature& add_plain(SmallPack& pack, std::size_t values) {
  pack.features.push_back(plain_values(values));
  return pack.features.back();
}

std::vector<bool> just(std::size_t members, std::size_t member) {
  std::vector<bool> out(members, false);
  out[member] = true;
  return out;
}

Fact of_variant(const SmallPack& pack, std::size_t variant, std::size_t value) {
  Fact out{value};
  out.scope.variants = just(pack.variants.size(), variant);
  return out;
}

void with_clear_eyes(PackRates& rates) {
  rates.confusion = rates.wrong_line = rates.not_recognised = rates.taken_for_ours = {0, 0, 0};
}

void with_one_level(PackRates& rates) {
  rates.level_shares = {0, 1, 0, 0};
}

Look saw(std::size_t feature, std::size_t value) {
  return {feature, {value}};
}

Approx by_hand(Real due) {
  return Approx(static_cast<double>(due)).margin(1e-12).epsilon(0);
}

void check_row(const Reals& row, const Reals& due) {
  REQUIRE(row.size() == due.size());
  for (std::size_t i = 0; i < row.size(); ++i) {
    INFO("figure " << i);
    CHECK(static_cast<double>(row[i]) == by_hand(due[i]));
  }
}

}  // namespace exworks::test::oracle
