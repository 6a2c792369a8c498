#include "assess/questions/expectations.hpp"

#include <algorithm>

#include "assess/summary.hpp"
#include "base/text.hpp"

namespace exworks {

namespace {

class Checker {
 public:
  Checker(const Tables& t, const Assessment& a, Diagnostics& d) : t_(t), a_(a), d_(d) {}

  void check(const Expectation& x) {
    x_ = &x;
    leads(x.generation, "generation", ExpectedOf::generation, a_.generations, t_.axes.generations);
    leads(x.variant, "variant", ExpectedOf::variant, a_.variants, t_.axes.variants);
    leads(x.body, "body", ExpectedOf::body, a_.bodies, t_.axes.bodies);
    leads(x.market, "market", ExpectedOf::market, a_.markets, t_.axes.markets);
    leads(x.plant, "plant", ExpectedOf::plant, a_.plants, t_.axes.plants);
    if (x.built) add(ExpectedOf::built, a_.date.from <= x.built->last && a_.date.to >= x.built->first);
    if (x.within) add(ExpectedOf::within, a_.date.from >= x.within->first && a_.date.to <= x.within->last);
    if (!x.feature.empty()) feature(x);
    if (!x.number.empty()) number(x);
    if (!x.undecided.empty()) add(ExpectedOf::undecided, odds_of_axis(a_, x.undecided).front().p <= a_.settings.original_from);
  }

  std::vector<ExpectationResult> results;

 private:
  void add(ExpectedOf of, bool met) { results.push_back({x_, of, met}); }

  template <class Items>
  void leads(const std::string& id, const std::string& kind, ExpectedOf of, const std::vector<Odds>& odds, const Items& items) {
    if (id.empty()) return;
    std::vector<std::string> ids;
    for (const auto& item : items) ids.push_back(item.id);
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) {
      d_.error(x_->place, "pack '" + t_.family + "' has no " + kind + " '" + id + "'", did_you_mean(id, ids, "it has " + join_and(ids)));
      return;
    }
    add(of, items[odds.front().index].id == id && odds.front().p > 0.5);
  }

  void feature(const Expectation& x) {
    const auto at = t_.feature_index.find(x.feature);
    const FeatureVerdict* f = at == t_.feature_index.end() ? nullptr : verdict_on(a_, at->second);
    if (f != nullptr) add(ExpectedOf::feature, word(f->verdict) == x.verdict);
    else d_.error(x.place, "feature '" + x.feature + "' is expected but was not observed", "observe it, or correct the name");
  }

  void number(const Expectation& x) {
    const auto n = std::find_if(a_.numbers.begin(), a_.numbers.end(), [&](const NumberVerdict& v) { return t_.numbers[v.number].id == x.number; });
    if (n != a_.numbers.end()) add(ExpectedOf::number, word(n->agrees) == x.agrees);
    else d_.error(x.place, "number '" + x.number + "' is expected but is not in the inspection", "give it, or correct the name");
  }

  const Tables& t_;
  const Assessment& a_;
  Diagnostics& d_;
  const Expectation* x_ = nullptr;
};

}  // namespace

std::vector<ExpectationResult> check_expectations(const Tables& tables, const Inspection& inspection, const Assessment& assessment, Diagnostics& diagnostics) {
  Checker checker(tables, assessment, diagnostics);
  for (const Expectation& x : inspection.expectations) checker.check(x);
  return checker.results;
}

}  // namespace exworks
