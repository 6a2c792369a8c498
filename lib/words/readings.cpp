#include "words/readings.hpp"

#include "base/text.hpp"
#include "words/claims.hpp"
#include "words/english/english.hpp"
#include "words/summary.hpp"

namespace exworks {

std::string condition_words(const Case& of, const Reading& r) {
  switch (r.condition) {
    case Condition::own_number: return "the number is the vehicle's own";
    case Condition::other_number: return "the number is not the vehicle's own";
    case Condition::claim: return "as claimed: " + claim_words(of.tables, of.inspection.claims[of.assessment.claims[r.claim].claim]);
  }
  return {};
}

std::string taken_words(const Case& of, const Reading& r) {
  return (r.condition == Condition::claim ? "Taken " : "Taken that ") + condition_words(of, r);
}

std::string build_words(const Tables& t, const Reading& r) {
  if (!r.leading) return {};
  const RouteInfo& route = t.routes[r.leading->route];
  return with_article(t.axes.variants[route.variant].name) + ", " + t.axes.markets[route.market].name + ", built " + span_words(r.date);
}

std::string later_words(const Tables& t, const Reading& r) {
  std::vector<std::string> later;
  for (const ReadingLine& f : r.features) {
    if (f.verdict == VerdictKind::later_change) later.push_back(t.features[f.feature].name + " (" + t.values_name(f.feature, f.noted) + ")");
  }
  if (later.empty()) return "Then nothing that was observed is a later change.";
  return "Then " + std::to_string(later.size()) + " " + std::string(is_or_are(later.size())) + plural(later.size(), " a later change", " later changes") + ": " + join_and(later) + ".";
}

}  // namespace exworks
