#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Plants that don't work all months and markets that no plant then serves ("Axes" of rules/FORMAT.md).
using namespace exworks::test;
using namespace exworks::test::oracle;

TEST_CASE("The engine agrees with the enumeration on plants that open, close and serve few markets", "[outside][oracle]") {
  int idle = 0;
  for (std::uint64_t seed = 8001; seed <= 8100; ++seed) {
    Dice dice(seed);
    SmallPack pack = random_pack(dice);
    close_plants(pack, dice);
    const std::string xml = pack_xml(pack);
    INFO("seed " << seed << "\n" << xml);
    const auto tables = pack_from_text(xml);
    const Visit visit = random_visit(pack, dice, 0.4);
    INFO(visit_xml(pack, visit));
    CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
    std::size_t months = 0;
    for (const Variant& v : pack.variants) months += static_cast<std::size_t>(v.built.last - v.built.first + 1);
    std::vector<std::pair<std::size_t, int>> worked;
    const Model model(pack, {});
    for (const Build& b : model.builds()) {
      if (worked.empty() || worked.back() != std::pair{b.variant, b.month}) worked.emplace_back(b.variant, b.month);
    }
    idle += worked.size() < months ? 1 : 0;
  }
  CHECK(idle > 30);  // else the test would prove little
}
