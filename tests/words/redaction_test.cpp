#include "words/redaction.hpp"

#include "support.hpp"

/// What strangers are not shown. The rule is ours: common practice, no source.
using namespace exworks;
using namespace exworks::test;

TEST_CASE("Of a number its beginning is shown, and never more than a third", "[redaction]") {
  CHECK(withheld_number("SMM/116212") == "SMM…");
  CHECK(withheld_number("116 212") == "11…");
  CHECK(withheld_number("417") == "4…");
  CHECK(withheld_number("41") == "…");
  CHECK(withheld_number("") == "…");
  CHECK(withheld_number("№№№12345678") == "№№№…");
}

TEST_CASE("An assessment without people keeps its verdicts and loses names, notes, photos and numbers", "[redaction]") {
  Judged j = assess_lines(pack("aldermoor-carrier"), R"(<vehicle name="Quill's van" reference="QZX 417"><note>from Pell</note></vehicle>
    <observed feature="headlamp-position" value="high" note="Pell moved them" photo="a.jpg"/>
    <number id="chassis-number" text="AC2 V 31205 K" note="under the seat"/> <claimed by="Pell" variant="*"/>)");
  const auto verdict = feature(j, "headlamp-position").verdict;
  redact(j, j.inspection);
  CHECK(feature(j, "headlamp-position").verdict == verdict);
  CHECK(j.inspection.vehicle.empty());
  CHECK(j.inspection.reference.empty());
  CHECK(j.inspection.observations.front().note.empty());
  CHECK(j.inspection.observations.front().photo.empty());
  CHECK(number(j, "chassis-number").text == "AC2…");
  CHECK_FALSE(number(j, "chassis-number").reading->serial);
}
