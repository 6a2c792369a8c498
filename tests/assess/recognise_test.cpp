#include "support.hpp"
#include "assess/questions/recognise.hpp"

/// The rule of rules/FORMAT.md, "Which family is it?", worked out by hand beside each check.
using namespace exworks;
using namespace exworks::test;

namespace {

Tables family(const std::string& marks) {
  return pack_from_text(R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
    <source id="trade" kind="common-practice" title="common practice, no source"/>
    <question id="engine" ask="Where is the engine?"><answer id="front" name="at the front"/><answer id="middle" name="in the middle"/><answer id="rear" name="at the back"/></question>
    )" + marks + R"(
    <market id="home" name="Home"/><plant id="works" name="Works" kit="no" markets="*"/>
    <generation id="g" name="G"/><body id="b" name="B"/>
    <variant id="v" name="V" generation="g" body="b" markets="*" plants="*" from="1950-01" to="1950-12" source="trade"/>
  </pack>)");
}

double odds(const std::vector<FamilyGuess>& guesses, std::size_t pack) {
  for (const FamilyGuess& g : guesses) {
    if (g.pack == pack) return g.p;
  }
  return -1;
}

}  // namespace

TEST_CASE("an answer that a family names speaks for it, a silent family stays as it was", "[pack][recognise]") {
  const Tables rear = family(R"(<recognise question="engine" answer="rear" source="trade"/>)");
  const Tables both = family(R"(<recognise question="engine" answer="rear" source="trade"/><recognise question="engine" answer="front" source="trade"/>)");
  const Tables silent = family("");
  const auto g = guess_family({&rear, &both, &silent}, {{"engine", "rear"}}, "");
  // Three answers. Rear: 3 x 0.96 = 2.88; both: 3 x 0.48 = 1.44; silent and none of these: 1 each. In all 6.32.
  CHECK(odds(g, 0) == Approx(2.88 / 6.32));
  CHECK(odds(g, 1) == Approx(1.44 / 6.32));
  CHECK(odds(g, 2) == Approx(1 / 6.32));
  CHECK(odds(g, 3) == Approx(1 / 6.32));
  // Middle: 3 x 0.02 = 0.06 for one that names one of three, 3 x 0.04 = 0.12 for one that names two. In all 2.18.
  const auto m = guess_family({&rear, &both, &silent}, {{"engine", "middle"}}, "");
  CHECK(odds(m, 0) == Approx(0.06 / 2.18));
  CHECK(odds(m, 1) == Approx(0.12 / 2.18));
  // Nothing answered: even.
  for (const FamilyGuess& e : guess_family({&rear, &silent}, {}, "")) CHECK(e.p == Approx(1.0 / 3));
}

TEST_CASE("mistakes in questions and hallmarks are told where they stand", "[pack][recognise]") {
  const auto told = [](const std::string& line) {
    return messages(check_text(R"(<pack format="1" id="trial" name="Trial" version="1" status="invented"><source id="trade" kind="common-practice" title="common practice, no source"/>
<question id="engine" ask="Where?"><answer id="front" name="at the front"/><answer id="rear" name="at the back"/></question>
)" + line + R"(<market id="home" name="Home"/><plant id="works" name="Works" kit="no" markets="*"/><generation id="g" name="G"/><body id="b" name="B"/>
<variant id="v" name="V" generation="g" body="b" markets="*" plants="*" from="1950-01" to="1950-12" source="trade"/></pack>)"));
  };
  const std::string good = told(R"(<recognise question="engine" answer="rear" source="trade"/>)");
  CHECK(good.find("question") == std::string::npos);
  CHECK(good.find("answer") == std::string::npos);
  CHECK(told(R"(<recognise question="engin" answer="rear" source="trade"/>)").find(":3:") != std::string::npos);
  CHECK(told(R"(<recognise question="engine" answer="reer" source="trade"/>)").find("did you mean 'rear'?") != std::string::npos);
  CHECK(told(R"(<recognise question="engine" answer="rear"/>)").find("source") != std::string::npos);
  CHECK(told(R"(<recognise question="engine" answer="rear" source="trade"/><recognise question="engine" answer="rear" source="trade"/>)").find("this answer is given twice; first in line 3; keep one of the two") != std::string::npos);
  CHECK(told(R"(<question id="doors" ask="How many?"><answer id="two" name="two"/></question>)").find("question 'doors' has fewer than two answers") != std::string::npos);
}
