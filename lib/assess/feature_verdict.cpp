#include "assess/feature_verdict.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "assess/marginals.hpp"
#include "words/evidence.hpp"
#include "words/scales.hpp"
#include "words/scopes.hpp"

namespace exworks {

namespace {

struct WeighedFact {
  std::size_t fact;
  double weight;  ///< odds of the builds in which it binds
};

/// The facts that bind in the builds that remain, heaviest first.
std::vector<WeighedFact> binding_facts(const Judge& j, std::size_t feature) {
  const FeatureInfo& f = j.tables.features[feature];
  const std::vector<double> by_column = j.posterior.column_mass(j.tables, feature);
  std::vector<double> weight(f.facts.size(), 0.0);
  for (std::size_t c = 0; c < by_column.size(); ++c) {
    for (std::size_t fact : f.columns[c].facts) weight[fact] += by_column[c];
  }
  std::vector<WeighedFact> out;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    if (weight[i] > 0.02) out.push_back({i, weight[i]});
  }
  std::stable_sort(out.begin(), out.end(), [](const WeighedFact& a, const WeighedFact& b) { return a.weight > b.weight; });
  return out;
}

std::string fitted_words(const FactInfo& fact) {
  if (fact.law) return "asked for by law (" + law_words(*fact.law) + "; the pack itself is silent)";
  if (fact.fitted == Fitted::option) return "an option";
  if (fact.fitted == Fitted::dealer) return "fitted by dealers";
  return fact.share < 1 ? "one of several fitted" : "standard";
}

std::string scope_of(const Axes& axes, const FactInfo& fact) {
  const std::string who = scope_words(axes, fact.scope), when = period_words(fact);
  return (who.empty() ? "" : " (" + who + ")") + (when.empty() ? "" : " " + when);
}

/// "the Series MM two-door saloon of Mar 1950 to Jun 1950"
std::string leading_build(const Judge& j) {
  const RouteInfo& route = j.tables.routes[j.so_far.routes.front().route];
  const DateSet& d = j.so_far.date;
  return j.tables.axes.variants[route.variant].name + " (" + j.tables.axes.markets[route.market].name + "), " + span_words(d.from, d.to);
}

class Writer {
 public:
  Writer(const Judge& judge, FeatureVerdict& out)
      : j_(judge), out_(out), f_(judge.tables.features[out.finding.feature]), seen_(judge.evidence.seen[out.finding.seen]), facts_(binding_facts(judge, out.finding.feature)) {}

  void run() {
    decide();
    if (out_.verdict == VerdictKind::later_change) explain_change();
    const double ratio = out_.finding.likelihood_ratio;
    const double strength = ratio >= 1 ? ratio : 1 / ratio;
    out_.strength = strength_words(strength);
    if (strength >= 2) out_.strength += ratio >= 1 ? " for as built" : " for a later change";
    out_.reason = reason();
    cite();
    part();
  }

 private:
  bool mostly_silent() const { return out_.finding.p_silent > 0.5; }

  void decide() {
    const FeatureFinding& x = out_.finding;
    const double type = x.type_where_spoken();
    if (mostly_silent()) out_.verdict = VerdictKind::uncertain;
    else if (type >= j_.settings.original_from) out_.verdict = VerdictKind::original;
    else if (type <= j_.settings.later_to) out_.verdict = VerdictKind::later_change;
    const bool original = x.p_type >= 0.5;
    bool any = false, all_memory = true;
    for (const WeighedFact& w : facts_) {
      if (f_.facts[w.fact].fitted != Fitted::standard && f_.facts[w.fact].value != seen_.value) continue;
      if (original && f_.facts[w.fact].value != seen_.value) continue;
      any = true;
      all_memory = all_memory && f_.facts[w.fact].memory_only;
    }
    out_.memory_alone = any && all_memory;
    if (out_.memory_alone && !j_.settings.memory_decides) out_.verdict = VerdictKind::uncertain;
  }

  const AssemblyFinding* assembly() const {
    if (!f_.assembly) return nullptr;
    for (const AssemblyFinding& a : j_.assemblies) {
      if (a.assembly == *f_.assembly) return &a;
    }
    return nullptr;
  }

  /// Which known change it is, or which donors fit.
  void explain_change() {
    const Tables& t = j_.tables;
    for (std::size_t c : f_.changes) {
      const ChangeInfo& change = t.changes[c];
      const bool possible = !change.from || !j_.evidence.inspected || share_after(*change.from, *j_.evidence.inspected) > 0;
      if (possible && change.sets.front().second == seen_.value) out_.later_change = c;
    }
    if (const AssemblyFinding* a = assembly(); a != nullptr && a->p_replaced > 0.5) {
      double family = 1;
      for (const auto& [change, p] : a->outside) {
        family -= p;
        const auto& sets = t.changes[change].sets;
        const bool names_it = std::find(sets.begin(), sets.end(), std::pair{out_.finding.feature, seen_.value}) != sets.end();
        if (names_it && p > 0.5) out_.later_change = change;
      }
      if (family > 0.5) {
        Month first;
        const DateSet d = shortest_window(month_odds(t, a->donor, &first), first, j_.settings.level);
        out_.donor = DonorDates{d.from, d.to, a->p_replaced * family};
        out_.reversible = t.assemblies[a->assembly].reversible;
        out_.hours = t.assemblies[a->assembly].hours;
      }
    }
    if (out_.later_change) {
      out_.reversible = t.changes[*out_.later_change].reversible;
      out_.hours = t.changes[*out_.later_change].hours;
    }
  }

  std::string standard_values() const {
    std::vector<std::string> names;
    for (std::size_t v = 0; v < f_.values.size(); ++v) {
      if (out_.finding.works[v] > 0.05 && v != seen_.value) names.push_back("'" + f_.values[v].name + "'");
    }
    if (names.empty()) return out_.finding.works.back() > 0.5 ? "none" : "another kind";
    return names.size() == 1 ? names.front() : join_and(names);
  }

  const FactInfo* heaviest(bool of_observed) const {
    for (const WeighedFact& w : facts_) {
      if ((f_.facts[w.fact].value == seen_.value) == of_observed) return &f_.facts[w.fact];
    }
    return nullptr;
  }

  std::string reason() const {
    if (mostly_silent()) return "The pack is silent here for the vehicles that fit, so nothing follows from it.";
    const FactInfo* own = heaviest(true);
    const std::string memory = out_.memory_alone ? " The only ground for it is memory, so it stays open." : "";
    if (out_.verdict == VerdictKind::original || (out_.memory_alone && own != nullptr && out_.finding.p_type >= 0.5)) {
      if (own == nullptr) return (f_.of_number ? "The kind that the works fitted." : "Such vehicles left the works without it.") + memory;
      return "The kind that the works fitted: " + fitted_words(*own) + scope_of(j_.tables.axes, *own) + "." + (own->disputed ? " Sources disagree on the date." : "") + memory;
    }
    if (out_.verdict == VerdictKind::later_change) return change_reason();
    return uncertain_reason(own) + memory;
  }

  std::string change_reason() const {
    std::string text = "Doesn't belong on " + leading_build(j_) + ", which had " + standard_values() + " when new.";
    if (out_.later_change) text += " A known change: " + j_.tables.changes[*out_.later_change].name + ".";
    if (out_.donor) {
      text += " Right for " + std::string(out_.donor->from == out_.donor->to ? "a donor of " + to_words(out_.donor->from)
                                                                             : "donors of " + to_words(out_.donor->from) + " to " + to_words(out_.donor->to)) + ".";
    } else if (!out_.later_change) {
      text += elsewhere();
    }
    return text;
  }

  /// Where the pack does know the observed value.
  std::string elsewhere() const {
    for (const FactInfo& fact : f_.facts) {
      if (fact.value == seen_.value) return " It was " + fitted_words(fact) + scope_of(j_.tables.axes, fact) + ".";
    }
    return seen_.value == f_.other() ? " It is none of the kinds that the pack knows." : "";
  }

  std::string uncertain_reason(const FactInfo* own) const {
    const FeatureFinding& x = out_.finding;
    const double works = x.works[seen_.value];
    if (x.p_silent > 0.1) return "For part of the builds that remain the pack is silent.";
    if (own != nullptr && own->fitted != Fitted::standard && f_.altered >= 0.2) {
      return "It was " + fitted_words(*own) + " when new and bolts on and off, so it says little about originality.";
    }
    if (f_.altered >= 0.2) return "It is changed so easily and so often that it says little about originality.";
    if (own != nullptr && own->fitted != Fitted::standard) {
      return "It was " + fitted_words(*own) + " when new" + scope_of(j_.tables.axes, *own) + ", and may also have been added later.";
    }
    if (works > 0.02 && works < 0.98) return "Right for some of the builds that remain (" + percent(works) + " of the odds) and not for the others; see what to look at next.";
    if (works >= 0.5) return "The kind that the works fitted, but a changed one would look the same.";
    if (x.p_type >= 0.5) return "Not the kind that the works fitted (" + standard_values() + "); a slip of the eye is likelier than a change, so look again.";
    return "Not the kind that the works fitted (" + standard_values() + "), but a slip of the eye or an odd vehicle is not ruled out.";
  }

  void cite() {
    if (mostly_silent()) return;
    const bool original = out_.finding.p_type >= 0.5;
    for (const WeighedFact& w : facts_) {
      const FactInfo& fact = f_.facts[w.fact];
      const bool of_observed = fact.value == seen_.value;
      if (original && !of_observed) continue;
      if (out_.facts.size() < 4) out_.facts.push_back(w.fact);
    }
    const auto add = [&](const std::vector<std::size_t>& sources) {
      for (std::size_t s : sources) {
        if (std::find(out_.sources.begin(), out_.sources.end(), s) == out_.sources.end()) out_.sources.push_back(s);
      }
    };
    for (std::size_t i : out_.facts) add(f_.facts[i].sources);
    if (out_.later_change) add(j_.tables.changes[*out_.later_change].sources);
  }

  /// The very part: how it was found (nothing changed), times what its own wear and marks say. The ratios are judgement.
  void part() {
    double ratio = 1;
    std::vector<std::string> signs;
    if (seen_.observation) {
      const Observation& o = j_.inspection.observations[*seen_.observation];
      const auto sign = [&](bool there, const char* words, double r) {
        if (!there) return;
        signs.emplace_back(words);
        ratio *= r;
      };
      sign(o.wear == Wear::consistent, "wear like the rest of the vehicle", 3);
      sign(o.wear == Wear::fresher, "fresher than the rest of the vehicle", 0.2);
      sign(o.wear == Wear::older, "more worn than the rest of the vehicle", 0.2);
      sign(o.mark == MakersMark::maker, "the maker's mark", 2);
      sign(o.mark == MakersMark::other_maker, "another maker's mark", 0.1);
      sign(o.mark == MakersMark::none, "no maker's mark", 0.7);
      for (const CodeVerdict& c : j_.so_far.codes) {
        if (c.feature != f_.id) continue;
        sign(c.timing == Timing::supports, "a date code from before or about the build", 5);
        sign(c.timing == Timing::after, "a date code from after the build", 0.01);
        sign(c.timing == Timing::long_before, "a date code from long before the build", 0.5);
      }
    }
    const double p = std::min(out_.finding.p_untouched, 1.0);
    out_.p_part = p * ratio / (p * ratio + (1 - p));
    if (out_.verdict == VerdictKind::later_change) {
      out_.part = "not the part fitted when new";
    } else if (out_.verdict == VerdictKind::uncertain && signs.empty()) {
      out_.part = "not shown";
    } else if (signs.empty()) {
      out_.part = "right type; not shown to be the part fitted when new";
    } else {
      const std::string kind = out_.verdict == VerdictKind::original ? "right type; " : "";
      const double strength = ratio >= 1 ? ratio : 1 / ratio;
      out_.part = kind + join_and(signs) + ": " + strength_words(strength) +
                  (strength < 2 ? "" : ratio >= 1 ? " for its being the part fitted when new" : " for its being a later part");
    }
  }

  const Judge& j_;
  FeatureVerdict& out_;
  const FeatureInfo& f_;
  const Seen& seen_;
  std::vector<WeighedFact> facts_;
};

}  // namespace

std::string word(VerdictKind kind) {
  return kind == VerdictKind::original ? "original" : kind == VerdictKind::later_change ? "later change" : "uncertain";
}

std::string strength_words(double ratio) { return support_words(std::min(ratio, 9'999.0)); }

FeatureVerdict judge_feature(const Judge& judge, const FeatureFinding& finding) {
  FeatureVerdict out;
  out.finding = finding;
  const Seen& seen = judge.evidence.seen[finding.seen];
  const FeatureInfo& f = judge.tables.features[finding.feature];
  out.id = f.id;
  out.name = f.name;
  out.observed = judge.tables.value_name(finding.feature, seen.value);
  out.observed_id = judge.tables.value_id(finding.feature, seen.value);
  out.how_noted = how_noted_words(judge.tables, judge.evidence, seen);
  if (seen.observation && !judge.inspection.observations[*seen.observation].note.empty()) {
    out.how_noted += (out.how_noted.empty() ? "" : "; ") + judge.inspection.observations[*seen.observation].note;
  }
  Writer(judge, out).run();
  return out;
}

}  // namespace exworks
