#include "words/summary.hpp"

#include "base/text.hpp"
#include "words/english/scales.hpp"
#include "words/english/english.hpp"
#include "words/reasons.hpp"

namespace exworks {

std::string span_words(const DateSet& d) { return span_words(d.from, d.to); }

std::string build_words(const Tables& t, const Marginals& m) {
  return t.axes.variants[m.variants.front().index].name + ", " + t.axes.markets[m.markets.front().index].name + ", built " + span_words(m.date);
}

std::string alteration_words(const Tables& t, const Assessment& a) {
  double little = 0, much = 0;
  for (std::size_t l = 0; l < a.alteration.size(); ++l) (t.rates.alteration[l] < 1 ? little : much) += t.rates.alteration[l] == 1 ? 0.0 : a.alteration[l];
  const double ordinary = 1 - little - much;
  if (much >= 0.5) return "much (" + percent(much) + "): a change is readily believed of each part";
  if (little >= 0.5) return "little (" + percent(little) + "): a change is seldom believed";
  return "no more than most (little " + percent(little) + ", as most " + percent(ordinary) + ", much " + percent(much) + ")";
}

std::string counts_words(const Assessment& a) {
  const VerdictCounts n = verdict_counts(a);
  return counted(n.all(), "feature") + " " + std::string(was_or_were(n.all())) + " observed: " + std::to_string(n.original) + " of the type fitted when new, " + counted(n.later, "later change") + ", " +
         std::to_string(n.uncertain) + " uncertain.";
}

std::string group_name(const Tables& t, const Assessment& a, const ChangeGroup& group) {
  const FeatureVerdict& f = a.features[group.front()];
  const NamedChange* change = named_change(t, f);
  return upper_first(change != nullptr ? change->name : feature_words(t, f));
}

std::string names_of(const Tables& t, const std::vector<std::size_t>& features) {
  std::vector<std::string> names;
  for (std::size_t f : features) names.push_back(t.features[f].name);
  return join_and(names);
}

}  // namespace exworks
