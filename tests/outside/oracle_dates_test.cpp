#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Every form of a date that rules/FORMAT.md reads ("Dates"), on papers and in conditions.
using namespace exworks;
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

struct Written {
  std::string text;
  std::optional<Window> means;  ///< nothing: open
};

constexpr int month_of(int year, int month) {
  return (year - 1950) * 12 + month - 1;
}

const std::vector<Written>& dates() {
  static const std::vector<Written> out{{"1952-11", Window{month_of(1952, 11), month_of(1952, 11)}},
                                        {"1952-11-14", Window{month_of(1952, 11), month_of(1952, 11)}},
                                        {"1952", Window{month_of(1952, 1), month_of(1952, 12)}},
                                        {"195X", Window{month_of(1950, 1), month_of(1959, 12)}},
                                        {"195X?", Window{month_of(1945, 1), month_of(1964, 12)}},
                                        {"1952-21", Window{month_of(1952, 3), month_of(1952, 5)}},
                                        {"1952-22", Window{month_of(1952, 6), month_of(1952, 8)}},
                                        {"1952-23", Window{month_of(1952, 9), month_of(1952, 11)}},
                                        {"1952-24", Window{month_of(1952, 12), month_of(1953, 2)}},
                                        {"1952-22~", Window{month_of(1952, 4), month_of(1952, 10)}},
                                        {"1952-11~", Window{month_of(1952, 9), month_of(1953, 1)}},
                                        {"1952-11?", Window{month_of(1952, 9), month_of(1953, 1)}},
                                        {"1952-11%", Window{month_of(1952, 9), month_of(1953, 1)}},
                                        {"1952~", Window{month_of(1951, 1), month_of(1953, 12)}},
                                        {"1953?", Window{month_of(1952, 1), month_of(1954, 12)}},
                                        {"[1952-03..1952-09]", Window{month_of(1952, 3), month_of(1952, 9)}},
                                        {"[1952..1953-01]", Window{month_of(1952, 1), month_of(1953, 1)}},
                                        {"1952-03/1952-09", Window{month_of(1952, 3), month_of(1952, 9)}},
                                        {"1952-01/1952-12", Window{month_of(1952, 1), month_of(1952, 12)}},
                                        {"1952-24/1953-06~", Window{month_of(1952, 12), month_of(1953, 8)}},
                                        {"..", {}}};
  return out;
}

}  // namespace

TEST_CASE("Each form of a date weighs on each kind of paper as its row of the handbook says", "[outside][oracle]") {
  Dice dice(43);
  const SmallPack pack = random_pack(dice);
  const auto tables = pack_from_text(pack_xml(pack));
  const auto compare = [&](const Visit& visit) {
    INFO(visit_xml(pack, visit));
    CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
  };
  for (const std::string kind : {"build-record", "registration", "plate", "handbook", "invoice", "letter", "owner"}) {
    for (const Written& date : dates()) {
      Visit visit;
      visit.papers = {{kind, date.means, {}, date.text, ""}};
      compare(visit);
      visit.papers = {{kind, {}, date.means, "", date.text}};
      compare(visit);
      visit.papers = {{kind, date.means, Window{month_of(1952, 5), month_of(1952, 6)}, date.text, "1952-05/1952-06"}};
      compare(visit);
    }
  }
}

TEST_CASE("Each form of a date is a condition", "[outside][oracle]") {
  Dice dice(44);
  const SmallPack pack = random_pack(dice);
  const auto tables = pack_from_text(pack_xml(pack));
  for (const Written& date : dates()) {
    Visit visit = random_visit(pack, dice, 0.5);
    visit.given.built = date.means;
    visit.given_words = {"built=" + date.text};
    if (!Model(pack, visit).possible()) continue;
    INFO(date.text << "\n" << visit_xml(pack, visit));
    CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
  }
}

TEST_CASE("A span with an open end is refused", "[outside][oracle]") {
  for (const std::string text :
       {"[..1952-03]", "[1952-03..]", "../1952-03", "1952-03/..", "/1952-03", "1952-13", "1952-00", "52-03"}) {
    INFO(text);
    Diagnostics d;
    read_inspection(R"(<inspection format="1" family="trial"><document kind="owner" built=")" + text + R"("/></inspection>)",
                    "inspection.xml", d);
    CHECK(d.has_errors());
  }
}
