#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Legal lines: the law binds where no standard fact does.
using namespace exworks;
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

Tables compiled(const SmallPack& pack) {
  const TemporaryFolder folder;
  folder.write("trial/pack.xml", pack_xml(pack));
  for (const std::string country : {"GB", "US"}) {
    const auto of = [&](const Law& law) { return law.country == country; };
    if (std::any_of(pack.laws.begin(), pack.laws.end(), of)) folder.write("market/" + country + ".xml", laws_xml(pack, country));
  }
  Diagnostics d;
  const auto read = read_pack(folder.path() / "trial", d);
  if (read) check_pack(*read, d);
  INFO(messages(d));
  REQUIRE(read);
  REQUIRE_FALSE(d.has_errors());
  return compile(*read, d).value();
}

}  // namespace

TEST_CASE("The engine agrees with the enumeration on what the law asked of new vehicles", "[outside][oracle]") {
  for (std::uint64_t seed = 9001; seed <= 9100; ++seed) {
    Dice dice(seed);
    SmallPack pack = random_pack(dice);
    add_laws(pack, dice);
    INFO("seed " << seed << "\n" << pack_xml(pack) << laws_xml(pack, "GB") << laws_xml(pack, "US"));
    const auto tables = compiled(pack);
    const Visit visit = random_visit(pack, dice, 0.7);
    INFO(visit_xml(pack, visit));
    CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
  }
}
