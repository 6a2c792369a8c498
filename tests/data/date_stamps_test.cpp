#include "support.hpp"

/// The year stamped on a Lucas unit, against what the pages quoted in the packs say of it: such a unit is on a vehicle
/// registered within three months or so after it was made (autoshite.com, "1951 Lanchester LD10", reply on date stamps).
using namespace exworks;
using namespace exworks::test;

namespace {

std::string stamp(const std::string& feature, int year) {
  return "<observed feature=\"" + feature + "\" value=\"y" + std::to_string(year) + "\"/>";
}

std::string four_stamps(int year) {
  return stamp("distributor-stamp", year) + stamp("dynamo-stamp", year) + stamp("control-box-stamp", year) + stamp("wiper-motor-stamp", year);
}

}  // namespace

TEST_CASE("Stamps of one year on four units place a vehicle in that year or the three months after it", "[packs]") {
  for (int year = 1950; year <= 1970; ++year) {
    const auto a = assess_lines(pack("morris-minor"), four_stamps(year));
    INFO(year);
    CHECK(a.date.from >= Month::of(year, 1));
    CHECK(a.date.to <= Month::of(year + 1, 3));
  }
}

TEST_CASE("Stamps of the distributor and the wiper motor do the same for a later family", "[packs]") {
  for (int year = 1964; year <= 1979; ++year) {
    const auto a = assess_lines(pack("mgb"), stamp("distributor-stamp", year) + stamp("wiper-motor-stamp", year));
    INFO(year);
    CHECK(a.date.most_likely >= Month::of(year, 1));
    CHECK(a.date.most_likely <= Month::of(year + 1, 3));
  }
}

// A unit made after the vehicle is a replacement: it follows from what the stamp says. Car 388434 was built on 2 and 3
// January 1956 (The Market, FLF11/388434).
TEST_CASE("A stamp younger than the vehicle makes that unit a later change and dates nothing", "[packs]") {
  const std::string car = R"(<number id="car-number" text="FLF11/388434"/><observed feature="body-style" value="timber"/>)";
  const auto a = assess_lines(pack("morris-minor"), car + stamp("wiper-motor-stamp", 1964));
  CHECK(feature(a, "wiper-motor-stamp").verdict == VerdictKind::later_change);
  CHECK(a.date.from <= Month::of(1956, 1));
  CHECK(a.date.to >= Month::of(1956, 1));
  CHECK(a.date.to < Month::of(1957, 1));
  const auto fits = assess_lines(pack("morris-minor"), car + stamp("wiper-motor-stamp", 1955));
  CHECK(feature(fits, "wiper-motor-stamp").verdict == VerdictKind::original);
}

// Instruments of a car of late 1963 are stamped up to a month or two before it was built (the-nautilus.blogspot.com,
// 12 September 2010); wheels bear month and year (aircoolednut.com, answers by J. Adney). The months of lag are judgement.
TEST_CASE("Stamps of one year on speedometer and wheels place a Type 1 in that year or the three months after it", "[packs]") {
  for (int year = 1954; year <= 1977; ++year) {
    const auto a = assess_lines(pack("volkswagen-type1"), stamp("speedometer-stamp", year) + stamp("wheel-stamp", year));
    INFO(year);
    CHECK(a.date.most_likely >= Month::of(year, 1));
    CHECK(a.date.most_likely <= Month::of(year + 1, 3));
  }
}

// Spicer stamps month, day and year on its axles ("Single Speed Axle Service Manual", page 6); judges of Corvettes allow parts
// that are up to six months older than the car (Crankshaft Coalition, "GM RPO build codes").
TEST_CASE("Dates on both axles place a vehicle in that year or the six months after it", "[packs]") {
  for (int year = 1946; year <= 1970; ++year) {
    const auto a = assess_lines(pack("willys-4x4"), stamp("axle-date", year) + stamp("front-axle-date", year));
    INFO(year);
    CHECK(a.date.most_likely >= Month::of(year, 1));
    CHECK(a.date.most_likely <= Month::of(year + 1, 6));
  }
}

// CJ-2A 13396 was built in January 1946 with a rear axle of 4 September 1945 (users.tellurian.net/vanorden, "1946 CJ2A"). An
// axle made after the vehicle is another vehicle's: it follows from what the stamp says.
TEST_CASE("An axle four months older than the vehicle is its own, and one of a later year is not", "[packs]") {
  const std::string jeep = R"(<number id="vehicle-number" text="CJ2A-13396"/><observed feature="tool-position" value="left-hollows"/>
                              <observed feature="windscreen-panes" value="two"/>)";
  const auto own = assess_lines(pack("willys-4x4"), jeep + stamp("axle-date", 1945));
  CHECK(feature(own, "axle-date").verdict == VerdictKind::original);
  CHECK(own.date.from <= Month::of(1946, 1));
  CHECK(own.date.to >= Month::of(1946, 1));
  const auto other = assess_lines(pack("willys-4x4"), jeep + stamp("axle-date", 1953));
  CHECK(feature(other, "axle-date").verdict != VerdictKind::original);  // or the figure was misread: look again
  CHECK(other.date.from <= Month::of(1946, 1));
  CHECK(other.date.to < Month::of(1947, 1));
}
