#include "words/english/english.hpp"

#include "support.hpp"

using namespace exworks;

TEST_CASE("One is one, and all else many", "[words]") {
  CHECK(counted(0, "feature") == "0 features");
  CHECK(counted(1, "feature") == "1 feature");
  CHECK(counted(2, "feature") == "2 features");
  CHECK(counted(1, "entry", "entries") == "1 entry");
  CHECK(counted(3, "entry", "entries") == "3 entries");
}

// Common practice, no source: by how a name is spoken.
TEST_CASE("A or an goes by how a name is spoken, letters of an abbreviation one by one", "[words]") {
  for (const char* spoken : {"a van", "an estate car", "an MGC GT", "a CJ-3A", "an M38A1", "a Ford GPW", "a UK van", "a utility", "an umbrella handbrake", "an IKA Jeep", "a NEKAF CJ-3B", "a VIASA CJ-3B", "an 1100", "a 1200 A",
                             "an 8 hp van", "an Australian 1300", "a European saloon", "a one-ton van", "an Export, split window", "a Series MM saloon"}) {
    const std::string text(spoken);
    CHECK(with_article(text.substr(text.find(' ') + 1)) == text);
  }
}
