#include "assess/expectations.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "words/scales.hpp"

namespace exworks {

namespace {

class Checker {
 public:
  Checker(const Tables& t, const Assessment& a, Diagnostics& d) : t_(t), a_(a), d_(d) {}

  void check(const Expectation& x) {
    x_ = &x;
    leads(x.generation, "generation", a_.generations, t_.axes.generations);
    leads(x.variant, "variant", a_.variants, t_.axes.variants);
    leads(x.body, "body", a_.bodies, t_.axes.bodies);
    leads(x.market, "market", a_.markets, t_.axes.markets);
    leads(x.plant, "plant", a_.plants, t_.axes.plants);
    const std::string found = to_iso(a_.date.from) + " to " + to_iso(a_.date.to);
    if (x.built) add("built " + to_words(*x.built), a_.date.from <= x.built->last && a_.date.to >= x.built->first, found);
    if (x.within) add("built within " + to_words(*x.within), a_.date.from >= x.within->first && a_.date.to <= x.within->last, found);
    if (!x.feature.empty()) feature(x);
    if (!x.number.empty()) number(x);
    if (!x.undecided.empty()) undecided(x);
  }

  std::vector<ExpectationResult> results;

 private:
  void add(std::string what, bool met, std::string found) { results.push_back({x_, std::move(what), met, std::move(found)}); }

  template <class Items>
  void leads(const std::string& id, const std::string& kind, const std::vector<Odds>& odds, const Items& items) {
    if (id.empty()) return;
    std::vector<std::string> ids;
    for (const auto& item : items) ids.push_back(item.id);
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) {
      d_.error(x_->place, "pack '" + t_.family + "' has no " + kind + " '" + id + "'", did_you_mean(id, ids, "it has " + join_and(ids)));
      return;
    }
    const Odds& best = odds.front();
    add(kind + " " + id, items[best.index].id == id && best.p > 0.5, items[best.index].id + " " + percent(best.p));
  }

  void feature(const Expectation& x) {
    for (const FeatureVerdict& f : a_.features) {
      if (t_.features[f.finding.feature].id != x.feature) continue;
      add(x.feature + " " + x.verdict, word(f.verdict) == x.verdict, word(f.verdict) + ", P(type as built) " + percent(f.finding.p_type));
      return;
    }
    d_.error(x.place, "feature '" + x.feature + "' is expected but was not observed", "observe it, or correct the name");
  }

  void number(const Expectation& x) {
    for (const NumberVerdict& n : a_.numbers) {
      if (n.id != x.number) continue;
      add(x.number + " agrees: " + x.agrees, n.agrees == x.agrees, n.agrees);
      return;
    }
    d_.error(x.place, "number '" + x.number + "' is expected but is not in the inspection", "give it, or correct the name");
  }

  void undecided(const Expectation& x) {
    const auto& odds = x.undecided == "generation" ? a_.generations : x.undecided == "variant" ? a_.variants : x.undecided == "market" ? a_.markets : a_.bodies;
    add(x.undecided + " undecided", odds.front().p <= 0.9, percent(odds.front().p));
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
