#include "words/english/terms.hpp"

#include "support.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"

using namespace exworks;
using namespace exworks::test;

TEST_CASE("trade terms are swapped as whole words, in one pass, with plural and capital kept") {
  const Terms us(pack("morris-minor").catalogue.terms, Region::en_US);
  CHECK(us("The bonnet and the hood") == "The hood and the top");
  CHECK(us("Front wings") == "Front fenders");
  CHECK(us("Wing nuts; swinging, drawing") == "Fender nuts; swinging, drawing");
  CHECK(us("Boot lid") == "Trunk lid");
  CHECK(us("Headlamps, tyres and colours.") == "Headlights, tires and colors.");
  CHECK(us("") == "");
  const Terms au(pack("morris-minor").catalogue.terms, Region::en_AU);
  CHECK(au("Saloon with a bonnet") == "Sedan with a bonnet");
  const Terms gb(pack("morris-minor").catalogue.terms, Region::en_GB);
  CHECK(gb("bonnet") == "bonnet");
}

TEST_CASE("another region changes words and no answer") {
  const Tables& here = pack("morris-minor");
  const Tables there = in_terms(here, Region::en_US);
  const std::string lines = R"(<observed feature="headlamp-position" value="low"/><observed feature="engine" value="cc-1098" note="under the bonnet"/>)";
  const auto a = assess_lines(here, lines), b = assess_lines(there, lines);
  REQUIRE(a.features.size() == b.features.size());
  CHECK(feature_words(there, feature(b, "headlamp-position")).starts_with("Headlight position: "));
  CHECK(noted_words({there, b.inspection, b}, feature(b, "engine")) == "under the bonnet");
  for (std::size_t i = 0; i < a.features.size(); ++i) CHECK(a.features[i].finding.p_type == b.features[i].finding.p_type);
  CHECK(a.date.from == b.date.from);
}
