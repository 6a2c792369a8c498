#include "value/valuation.hpp"

#include "support.hpp"

using namespace exworks;
using namespace exworks::test;

namespace {

Comparable sale(int year, int month, double price, std::optional<int> built = std::nullopt) {
  Comparable c;
  c.sold = Month::of(year, month);
  c.price = price;
  c.currency = "GBP";
  c.year = built;
  return c;
}

const std::string head = "date,price,currency,year,variant,condition,originality,note\n";

std::string mistakes(const std::string& text) {
  Diagnostics diagnostics;
  read_comparables(text, "sales.csv", diagnostics);
  return messages(diagnostics);
}

}  // namespace

TEST_CASE("the weighted median gives the published examples") {
  // P. Cooijmans, Weighted median, iq-tests-for-the-high-range.com/statistics/explained/weighted_median.html
  CHECK(weighted_quantile({{5, 3}, {4, 1}, {7, 9}}, 0.5) == 7);
  // Weighted median of {1,2,3,4,5} with weights .1 .1 .1 .1 .6, math.techqa.club, question 3968904
  CHECK(weighted_quantile({{1, .1}, {2, .1}, {3, .1}, {4, .1}, {5, .6}}, 0.5) == 5);
  // The same site, question 863213: 13 (10 times), 23 (3), 54 (4)
  CHECK(weighted_quantile({{13, 10}, {23, 3}, {54, 4}}, 0.5) == 13);
}

TEST_CASE("the effective number is Kish's, by the published example: 50 of weight 1 and 50 of weight 2 count for 90") {
  // askvity.info/statistics/what-is-the-kish-formula. The other variant counts one half here, which makes the weights 1 and 2.
  std::vector<Comparable> sales(100, sale(2026, 1, 1000));
  for (std::size_t i = 0; i < sales.size(); ++i) sales[i].variant = i < 50 ? "mine" : "other";
  CHECK(value_note(sales, {Month::of(2026, 1), std::nullopt, "mine", std::nullopt, std::nullopt, 0}).effective == Approx(90));
}

TEST_CASE("prices are carried over time at compound rates, and weights are Gaussian kernels") {
  const ValuationSubject subject{Month::of(2026, 6), 1950, "", std::nullopt, std::nullopt, 0.10};
  const Valuation v = value_note({sale(2024, 6, 1000, 1950), sale(2026, 6, 1000, 1954)}, subject);
  CHECK(v.sales[0].adjusted == Approx(1210));  // two years at 10 %
  CHECK(v.sales[1].adjusted == Approx(1000));
  CHECK(v.sales[0].weight == Approx(0.5));     // two years of sale and four model years are one bandwidth each
  CHECK_FALSE(v.middle);
  CHECK(v.low == Approx(1000));
  CHECK(v.high == Approx(1210));
}

TEST_CASE("five sales have a middle, four have not") {
  std::vector<Comparable> sales;
  for (double price : {4000.0, 5000.0, 6000.0, 7000.0}) sales.push_back(sale(2026, 6, price));
  const ValuationSubject subject{Month::of(2026, 6), std::nullopt, "", std::nullopt, std::nullopt, 0};
  CHECK_FALSE(value_note(sales, subject).middle);
  sales.push_back(sale(2026, 6, 30'000));
  const Valuation v = value_note(sales, subject);
  REQUIRE(v.middle);
  CHECK(*v.middle == 6000);
  CHECK(v.low == 4000);
  CHECK(v.high == 30'000);
}

TEST_CASE("the file of sales is read strictly, and every mistake has its line") {
  Diagnostics diagnostics;
  const auto sales = read_comparables(head + "2026-05-14,6500,GBP,1950,\"mm, two-door\",2,80,\"said \"\"runs\"\"\"\r\n2025-01,4000.5,GBP,,,,,\n", "sales.csv", diagnostics);
  CHECK(messages(diagnostics).empty());
  REQUIRE(sales.size() == 2);
  CHECK(sales[0].variant == "mm, two-door");
  CHECK(sales[0].note == "said \"runs\"");
  CHECK(sales[1].price == 4000.5);
  CHECK_FALSE(sales[1].year);
  CHECK(mistakes("date,price\n").find("does not name the columns") != std::string::npos);
  const std::string all = mistakes(head + "soon,6500,GBP,,,,,\n2026-05,-3,GBP,,,,,\n2026-05,1,pound,,,9,200,\n2026-05,1\n");
  for (const char* part : {"sales.csv:2", "'soon'", "sales.csv:3", "price '-3'", "currency 'pound'", "condition '9'", "originality '200'", "sales.csv:5", "2 cells"}) {
    INFO(part << "\n" << all);
    CHECK(all.find(part) != std::string::npos);
  }
  CHECK(mistakes(head + "2026-05,1,GBP,,,,,\n2026-05,1,USD,,,,,\n").find("in GBP and in USD") != std::string::npos);
  CHECK(mistakes(head + "2026-05,1,GBP,,,,,\"open\n").find("never closed") != std::string::npos);
}
