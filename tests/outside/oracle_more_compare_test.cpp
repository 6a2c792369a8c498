#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// What follows from the answer: leave-out, look-ahead and fit, against asking the enumeration again.
using namespace exworks::test;
using namespace exworks::test::oracle;

TEST_CASE("The engine agrees with the enumeration on leaving out a look and on looking further", "[outside][oracle]") {
  for (std::uint64_t seed = 12'001; seed <= 12'040; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    INFO("seed " << seed << "\n" << pack_xml(pack));
    const auto tables = pack_from_text(pack_xml(pack));
    const Visit visit = random_visit(pack, dice, 0.5);
    INFO(visit_xml(pack, visit));
    CHECK(compare_more(case_of(pack, tables, visit)).text() == "");
  }
}

TEST_CASE("The same with an identity number, papers and a condition", "[outside][oracle]") {
  for (std::uint64_t seed = 12'101; seed <= 12'120; ++seed) {
    Dice dice(seed);
    SmallPack pack = tiny_pack(dice);
    add_numbers(pack, dice);
    INFO("seed " << seed << "\n" << pack_xml(pack));
    const auto tables = pack_from_text(pack_xml(pack));
    Visit visit = random_visit(pack, dice, 0.6);
    add_number_texts(pack, dice, visit);
    add_papers(pack, dice, visit);
    INFO(visit_xml(pack, visit));
    CHECK(compare_more(case_of(pack, tables, visit)).text() == "");
  }
}

TEST_CASE("The fit of drawn vehicles is that of all that there could be", "[outside][oracle]") {
  for (std::uint64_t seed = 12'201; seed <= 12'240; ++seed) {
    Dice dice(seed);
    const SmallPack pack = tiny_pack(dice);
    INFO("seed " << seed << "\n" << pack_xml(pack));
    const auto tables = pack_from_text(pack_xml(pack));
    Visit visit = random_visit(pack, dice, 1);
    // Each note names one value: what a simulated inspector would leave open the text doesn't say.
    for (Look& look : visit.looks) look = {look.feature, {dice.below(pack.features[look.feature].values + 1)}, "seen", look.sure};
    INFO(visit_xml(pack, visit));
    CHECK(compare_fit(case_of(pack, tables, visit), 20'000).text() == "");
  }
}
