#include "base/date.hpp"

#include <catch2/catch.hpp>

using namespace exworks;

// Expected values follow the definitions of ISO 8601-2:2019 (EDTF), as cut to months in rules/FORMAT.md.
TEST_CASE("EDTF dates become windows of months") {
  const auto window = [](const char* text) {
    std::string why;
    const auto e = parse_edge(text, &why);
    INFO(text << ": " << why);
    REQUIRE(e);
    return to_iso(e->first) + " " + to_iso(e->last);
  };
  CHECK(window("1957-08") == "1957-08 1957-08");
  CHECK(window("1957-08-13") == "1957-08 1957-08");
  CHECK(window("1957") == "1957-01 1957-12");
  CHECK(window("195X") == "1950-01 1959-12");
  CHECK(window("1957-21") == "1957-03 1957-05");
  CHECK(window("1957-24") == "1957-12 1958-02");
  CHECK(window("1957-08~") == "1957-06 1957-10");
  CHECK(window("[1957-06..1957-09]") == "1957-06 1957-09");
  CHECK(window("1957-06/1957-09") == "1957-06 1957-09");
  CHECK(window("[1957..1958]") == "1957-01 1958-12");
}

TEST_CASE("What is no date is refused") {
  for (const char* text : {"", "57", "1957-13", "1957-00", "1957-25", "1957-8", "August 1957", "1957-02-30", "0000", "[1957-06]", "1957-09/1957-06", "[1957-09..1957-06]",
                           "1957-06/", "/1957", "19X7", "1957-06-31x"}) {
    std::string why;
    INFO(text);
    CHECK_FALSE(parse_edge(text, &why));
    CHECK_FALSE(why.empty());
  }
}

TEST_CASE("An edge ramps from nothing to everything, and old and new add up to one") {
  const Edge edge{Month::of(1950, 10), Month::of(1951, 1)};
  CHECK(share_after(edge, Month::of(1950, 9)) == 0.0);
  CHECK(share_after(edge, Month::of(1950, 10)) == Approx(0.125));
  CHECK(share_after(edge, Month::of(1951, 1)) == Approx(0.875));
  CHECK(share_after(edge, Month::of(1951, 2)) == 1.0);
  const Edge month{Month::of(1951, 1), Month::of(1951, 1)};
  CHECK(share_after(month, Month::of(1951, 1)) == 0.5);
}

TEST_CASE("A day is written in full; another date of ten letters is none", "[dates]") {
  const auto day = parse_day("2024-02-29");
  REQUIRE(day.has_value());
  CHECK(day->month == Month::of(2024, 2));
  CHECK(day->day == 29);
  for (const char* text : {"1950/1952?", "2024-02", "2024-13-01", "2024-02-30", "20240-2-29", ""}) CHECK_FALSE(parse_day(text).has_value());
}
