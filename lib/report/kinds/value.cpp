#include <cmath>
#include <cstdio>

#include "base/text.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/kinds/parts.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

using namespace parts;

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

/// "GBP 6,500"; the currency's own letters, so that a dollar is not taken for another.
std::string money(double amount, const std::string& currency) {
  std::string digits = std::to_string(std::llround(amount));
  for (std::size_t at = digits.size(); at > 3 + (digits[0] == '-' ? 1u : 0u); ) {
    at -= 3;
    digits.insert(at, ",");
  }
  return currency + " " + digits;
}

std::string decimals(double v, int n) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.*f", n, v);
  return buffer;
}

void sales_table(Report& d, const Valuation& v) {
  Table table{"The sales, each with its weight", {"Sold", "Vehicle", "Price", "Carried to the date", "Weight"}, {}, true};
  for (const WeightedSale& s : v.sales) {
    const Comparable& c = s.sale;
    std::string what = c.year ? std::to_string(*c.year) : "";
    for (const std::string& part : {c.variant, c.condition ? "condition " + std::to_string(*c.condition) : std::string(), c.originality ? "originality " + decimals(*c.originality, 0) : std::string(), c.note}) {
      if (!part.empty()) what += (what.empty() ? "" : ", ") + part;
    }
    table.rows.push_back({plain(c.sold_text), plain(what), plain(money(c.price, c.currency)), plain(money(s.adjusted, c.currency)), plain(percent(s.weight))});
  }
  d.blocks.push_back(std::move(table));
}

void changes_table(Report& d, const Valuation& v) {
  if (v.changes.empty() || v.rate <= 0) return;
  Table table{"Putting each later change back: hours x " + money(v.rate, v.currency) + ", and parts", {"Later change", "Hours", "Work", "Parts", "In all"}, {}, true};
  bool open = false;
  for (const Restoration& r : v.changes) {
    const bool known = r.hours > 0;
    open = open || !known || !r.parts_known;
    table.rows.push_back({plain(upper_first(r.change)), plain(known ? hours_words(r.hours) : "not known"), plain(known ? money(r.labour, v.currency) : "not known"), plain(r.parts_known ? money(r.parts, v.currency) : "not given"),
                          plain(known || r.parts_known ? money(r.labour + r.parts, v.currency) + (known && r.parts_known ? "" : " at least") : "not known")});
  }
  d.blocks.push_back(std::move(table));
  d.paragraph(std::string("What going back costs is not what a change takes off the price: a buyer may like it as it is.") + (open ? " Where hours or parts are not known, the sum is a lower limit." : ""), true);
}

}  // namespace

void valuation_section(Report& d, const ReportInput& in, Region) {
  if (in.valuation == nullptr || in.valuation->sales.empty()) return;
  const Valuation& v = *in.valuation;
  const std::size_t n = v.sales.size();
  d.heading(2, "A note on value, not a valuation");
  d.paragraph("This is not a valuation. It is not made to IVS or RICS standards and must not be relied on for lending, tax, probate or insurance. A licensed valuer gives a valuation.");
  if (v.middle) {
    d.blocks.push_back(Paragraph{{"Sales like it lie between " + money(v.low, v.currency) + " and " + money(v.high, v.currency) + ", the middle at " + money(*v.middle, v.currency) + " (at " + to_words(v.subject.valued) + ").", {}, Mark::none, true, false}});
    d.paragraph("The middle is the weighted median, the range the weighted 10 % and 90 % quantiles of " + std::to_string(n) + " sales, which count for as much as " + decimals(v.effective, 1) + " equal ones.");
  } else {
    d.blocks.push_back(Paragraph{{std::to_string(n) + (n == 1 ? " sale" : " sales") + ": from " + money(v.low, v.currency) + " to " + money(v.high, v.currency) + ".", {}, Mark::none, true, false}});
    d.paragraph("With fewer than " + std::to_string(enough_sales) + " sales only the range is given, and no middle.");
  }
  sales_table(d, v);
  changes_table(d, v);
  const ValuationSubject& s = v.subject;
  const Bandwidths& b = v.bandwidths;
  Bullets terms;
  terms.items.push_back(plain("Basis: prices of sales that the user supplied; none was checked by this program."));
  terms.items.push_back(plain("Date: " + to_words(s.valued) + ". Currency: " + v.currency + "."));
  terms.items.push_back(plain(s.trend == 0 ? std::string("Time: no rate of change of prices was given, so each price stands as it was paid.") : "Time: each price was carried to the date at " + decimals(100 * s.trend, 1) + " % a year, compounded, as the user set it."));
  terms.items.push_back(plain("Compared by" + std::string(s.year ? " model year " + std::to_string(*s.year) + "," : "") + (s.condition ? " condition " + std::to_string(*s.condition) + " of 5," : "") +
                              (s.originality ? " originality " + decimals(*s.originality, 0) + "," : "") + (s.variant.empty() ? "" : " variant " + s.variant + ",") + " and how long ago it was sold."));
  terms.items.push_back(plain("Method: sales comparison with kernel weights (E. A. Nadaraya, On estimating regression, 1964; G. S. Watson, Smooth regression analysis, Sankhya A 26, 1964): a Gaussian of the difference, "
                              "multiplied over what is known of both. Bandwidths, common practice without a source: " + decimals(b.sale_years, 0) + " years of sale, " + decimals(b.model_years, 0) + " model years, " +
                              decimals(b.condition_steps, 0) + " step of condition, " + decimals(b.originality_points, 0) + " points of originality; another variant counts " + decimals(b.other_variant, 1) + "."));
  terms.items.push_back(plain("Assumptions: title is good, the identity is as found above, the sales were at arm's length and included all fees or none. Limits: no road test, nothing dismantled, the market may have moved."));
  d.blocks.push_back(std::move(terms));
}

}  // namespace exworks
