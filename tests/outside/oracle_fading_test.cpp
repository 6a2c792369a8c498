#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Standard facts side by side on ramps: shares that don't add up to one, beside one without a share that fades.
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

constexpr int months = 18;

Window ramp_from(Dice& dice, int first, int last) {
  const int begin = dice.between(first, last);
  return {begin, begin + (dice.chance(0.3) ? 0 : dice.between(1, 9))};
}

/// One value without a share that fades out, in or both, or another after it, and up to three with shares, on edges of their own
/// or its own.
Feature fading_feature(Dice& dice) {
  Feature out;
  out.values = 4;
  const Window out_edge = ramp_from(dice, year_1952 + 3, year_1952 + 10);
  Fact plain{0, {}, {}, out_edge};
  if (dice.chance(0.3)) plain.from = ramp_from(dice, year_1952 - 2, year_1952 + 2);
  if (plain.from && plain.from->last >= out_edge.last) plain.from.reset();
  out.facts.push_back(plain);
  if (dice.chance(0.3)) out.facts.push_back({3, {}, out_edge});
  for (std::size_t v = 1 + dice.below(2); v < 4; ++v) {
    if (dice.chance(0.2)) continue;
    Fact shared{v, {}, {}, {}, "standard", dice.share(0.05, dice.chance(0.5) ? 0.4 : 1)};
    if (dice.chance(0.5)) shared.from = dice.chance(0.5) ? out_edge : ramp_from(dice, year_1952, year_1952 + 10);
    const int begun = shared.from ? shared.from->last + 1 : year_1952 + 4;
    if (dice.chance(0.3)) shared.to = ramp_from(dice, begun, begun + 6);
    out.facts.push_back(shared);
  }
  for (std::size_t i = dice.below(3); i > 0; --i) {
    Fact option{dice.below(4), {}, {}, {}, dice.chance(0.7) ? "option" : "dealer", dice.share(0.1, 0.5)};
    if (dice.chance(0.5)) option.from = ramp_from(dice, year_1952, year_1952 + 8);
    out.facts.push_back(option);
  }
  return out;
}

}  // namespace

TEST_CASE("The engine agrees with the enumeration on shares beside a fact that fades", "[outside][oracle]") {
  for (std::uint64_t seed = 11'001; seed <= 11'060; ++seed) {
    Dice dice(seed);
    SmallPack pack = long_pack(dice, 1, false);
    for (Variant& variant : pack.variants) variant.built = {year_1952, year_1952 + months - 1};
    pack.features.clear();
    for (int i = 0; i < 6; ++i) pack.features.push_back(fading_feature(dice));
    tidy(pack);
    INFO("seed " << seed << "\n" << pack_xml(pack));
    const auto tables = pack_from_text(pack_xml(pack));
    for (int i = 0; i < 3; ++i) {
      const Visit visit = random_visit(pack, dice, 0.5);
      INFO(visit_xml(pack, visit));
      CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
    }
  }
}
