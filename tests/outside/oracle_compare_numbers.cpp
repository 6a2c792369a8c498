#include <algorithm>

#include "oracle_compare.hpp"

namespace exworks::test::oracle {

namespace {

/// Months in the shortest run that holds nine tenths.
std::size_t shortest_run(const Reals& months) {
  std::size_t best = months.size();
  for (std::size_t first = 0; first < months.size(); ++first) {
    Real sum = 0;
    for (std::size_t last = first; last < months.size(); ++last) {
      sum += months[last];
      if (sum >= 0.9L - 1e-9L) {
        best = std::min(best, last - first + 1);
        break;
      }
    }
  }
  return best;
}

void compare_window(const Model& model, const std::string& id, const NumberVerdict& verdict, Differences& out) {
  const Reals months = model.months_by_number();
  out.check(id + ": there is a window", verdict.window.has_value() == !months.empty());
  if (!verdict.window || months.empty()) return;
  const int first = verdict.window->from - Month::of(1950, 1), last = verdict.window->to - Month::of(1950, 1);
  out.check(id + ": the shortest run", static_cast<std::size_t>(last - first + 1) == shortest_run(months));
  Real held = 0;
  for (int m = first; m <= last; ++m)
    held += m >= 0 && static_cast<std::size_t>(m) < months.size() ? months[static_cast<std::size_t>(m)] : 0;
  out.check(id + ": its run holds nine tenths", held >= 0.9L - 1e-9L);
}

}  // namespace

void compare_numbers(const Case& c, const Model& model, const Answer& answer, const Assessment& assessment, Differences& out) {
  out.check("the number of numbers", assessment.numbers.size() == c.visit.numbers.size());
  for (const NumberVerdict& verdict : assessment.numbers) {
    if (c.pack.numbers[verdict.number].assembly) continue;
    const std::string& id = c.tables.numbers[verdict.number].id;
    out.compare(id + " P(its own)", verdict.p_own.value_or(0.0), answer.p_own);
    compare_window(model, id, verdict, out);
    if (c.visit.given_own) continue;
    // The text gives no figure; but what is nearly sure of its own agrees, and what is nearly sure not to be doesn't.
    if (answer.p_own > 0.9L) out.check(id + " agrees", verdict.agrees == Agreement::yes);
    if (answer.p_own < 0.1L) out.check(id + " doesn't agree", verdict.agrees == Agreement::no);
  }
}

}  // namespace exworks::test::oracle
