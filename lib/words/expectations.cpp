#include "words/expectations.hpp"

#include "assess/summary.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

template <class Items>
std::string leading(const Items& items, const std::vector<Odds>& odds) {
  return items[odds.front().index].id + " " + percent(odds.front().p);
}

std::string feature_found(const Tables& t, const Assessment& a, const Expectation& x) {
  const FeatureVerdict* f = verdict_on(a, t.feature_index.at(x.feature));
  return f == nullptr ? "" : word(f->verdict) + ", P(type as built) " + percent(f->p);
}

std::string number_found(const Tables& t, const Assessment& a, const Expectation& x) {
  for (const NumberVerdict& n : a.numbers) {
    if (t.numbers[n.number].id == x.number) return word(n.agrees);
  }
  return {};
}

}  // namespace

std::string expected_words(const ExpectationResult& r) {
  const Expectation& x = *r.expectation;
  switch (r.of) {
    case ExpectedOf::generation: return "generation " + x.generation;
    case ExpectedOf::variant: return "variant " + x.variant;
    case ExpectedOf::body: return "body " + x.body;
    case ExpectedOf::market: return "market " + x.market;
    case ExpectedOf::plant: return "plant " + x.plant;
    case ExpectedOf::built: return "built " + to_words(*x.built);
    case ExpectedOf::within: return "built within " + to_words(*x.within);
    case ExpectedOf::feature: return x.feature + " " + x.verdict;
    case ExpectedOf::number: return x.number + " agrees: " + x.agrees;
    case ExpectedOf::undecided: return x.undecided + " undecided";
  }
  return {};
}

std::string found_words(const Tables& t, const Assessment& a, const ExpectationResult& r) {
  switch (r.of) {
    case ExpectedOf::generation: return leading(t.axes.generations, a.generations);
    case ExpectedOf::variant: return leading(t.axes.variants, a.variants);
    case ExpectedOf::body: return leading(t.axes.bodies, a.bodies);
    case ExpectedOf::market: return leading(t.axes.markets, a.markets);
    case ExpectedOf::plant: return leading(t.axes.plants, a.plants);
    case ExpectedOf::built:
    case ExpectedOf::within: return to_iso(a.date.from) + " to " + to_iso(a.date.to);
    case ExpectedOf::feature: return feature_found(t, a, *r.expectation);
    case ExpectedOf::number: return number_found(t, a, *r.expectation);
    case ExpectedOf::undecided: return percent(odds_of_axis(a, r.expectation->undecided).front().p);
  }
  return {};
}

}  // namespace exworks
