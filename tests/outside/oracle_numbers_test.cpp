#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Numbers by the second reading of rules/FORMAT.md: oracle_numbers.cpp visits every way of reading them.
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

/// One variant of these months, and these lines.
std::string plain_pack(const std::string& months, const std::string& lines) {
  return R"(<pack format="2" id="trial" name="Trial" version="1" status="invented">
    <source id="S" kind="published" title="List" publisher="Works, invented" year="1960"/><place id="front" name="Front"/>
    <market id="m0" name="m0"/><plant id="p0" name="p0" markets="*"/><generation id="g0" name="g0"/><body id="b0" name="b0"/>
    <variant id="v0" name="v0" generation="g0" body="b0" markets="*" plants="*" )" +
         months + R"( source="S"/>)" + lines + "</pack>";
}

}  // namespace

TEST_CASE("The engine agrees with the enumeration on numbers of every kind", "[outside][oracle]") {
  for (std::uint64_t seed = 7001; seed <= 7100; ++seed) {
    Dice dice(seed);
    SmallPack pack = random_pack(dice);
    add_numbers(pack, dice);
    const std::string xml = pack_xml(pack);
    INFO("seed " << seed << "\n" << xml);
    const auto tables = pack_from_text(xml);
    for (int i = 0; i < 2; ++i) {
      Visit visit = random_visit(pack, dice, 0.4);
      add_number_texts(pack, dice, visit);
      INFO(visit_xml(pack, visit));
      for (const std::string& word : given_words(visit)) UNSCOPED_INFO("given " << word);
      const Differences differences = compare_all(case_of(pack, tables, visit));
      CHECK(differences.text() == "");
    }
  }
}

TEST_CASE("Where rows of serials meet, the months that a serial may be of are as likely", "[outside][oracle]") {
  const auto tables = pack_from_text(plain_pack(R"(from="1952-01" to="1952-12")", R"(
    <number id="n" name="n" identity="yes" where="Stamped." source="S">
      <form id="o" name="o" source="S"><serial digits="1-4"/></form>
      <range first="1" last="600" from="1952-01" to="1952-06" spread="2" source="S"/>
      <range first="601" last="1200" from="1952-07" to="1952-12" spread="2" source="S"/>
    </number>)"));
  // 100 a month. The serials about the meeting were issued about the end of June: that a list has a new row there is no event on the line.
  exworks::Given own;
  own.own_number = true;
  for (const char* serial : {"600", "601"}) {
    const auto assessment = assess_lines(tables, std::string(R"(<number id="n" text=")") + serial + R"("/>)", {}, own);
    CHECK(assessment.month_odds[5] == Approx(assessment.month_odds[6]).epsilon(0.05));
    CHECK(assessment.month_odds[4] == Approx(assessment.month_odds[7]).epsilon(0.1));
    CHECK(assessment.month_odds[5] > 3 * assessment.month_odds[2]);
  }
}
