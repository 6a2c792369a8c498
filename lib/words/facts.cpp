#include "words/facts.hpp"

#include "words/english/scopes.hpp"

namespace exworks {

std::string fitted_words(const FactInfo& fact) {
  if (fact.law) return "asked for by law (" + law_words(*fact.law) + "; the pack itself is silent)";
  if (fact.fitted == Fitted::option) return "an option";
  if (fact.fitted == Fitted::dealer) return "fitted by dealers";
  return fact.share < 1 ? "one of several fitted" : "standard";
}

std::string scope_and_period(const Axes& axes, const FactInfo& fact) {
  const std::string who = scope_words(axes, fact.scope), when = period_words(fact);
  return (who.empty() ? "" : " (" + who + ")") + (when.empty() ? "" : " " + when);
}

std::string fact_words(const Tables& t, FeatureIndex feature, const FactInfo& fact) {
  std::string out = t.value_name(feature, fact.value) + ": " + fitted_words(fact);
  for (const std::string& words : {scope_words(t.axes, fact.scope), period_words(fact)}) out += words.empty() ? "" : ", " + words;
  if (fact.disputed) out += " (the sources disagree)";
  return out + (fact.note.empty() ? "" : ". " + fact.note);
}

}  // namespace exworks
