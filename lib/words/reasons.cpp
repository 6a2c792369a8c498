#include "words/reasons.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "words/facts.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

/// "Series MM two-door saloon (Home market), Mar 1950 to Jun 1950"
std::string leading_build(const Tables& t, const Marginals& m) {
  const RouteInfo& route = t.routes[m.routes.front().route];
  return t.axes.variants[route.variant].name + " (" + t.axes.markets[route.market].name + "), " + span_words(m.date.from, m.date.to);
}

class Sentence {
 public:
  Sentence(const Tables& tables, const Marginals& marginals, const FeatureVerdict& verdict)
      : t_(tables), m_(marginals), v_(verdict), f_(tables.features[verdict.finding.feature]), r_(verdict.reason), fact_(r_.fact ? &f_.facts[*r_.fact] : nullptr) {}

  std::string run() const {
    switch (r_.kind) {
      case ReasonKind::silent: return "The pack is silent here for the vehicles that fit, so nothing follows from it.";
      case ReasonKind::changed: return changed();
      case ReasonKind::of_no_build: return of_no_build();
      default: return plain() + (r_.memory_alone && v_.verdict == VerdictKind::uncertain ? " The only ground for it is memory, so it stays open." : "");
    }
  }

 private:
  std::string plain() const {
    switch (r_.kind) {
      case ReasonKind::as_built: return "The kind that the works fitted: " + fitted_words(*fact_) + scope_and_period(t_.axes, *fact_) + "." + (fact_->disputed ? " Sources disagree on the date." : "");
      case ReasonKind::in_range: return "The kind that the works fitted.";
      case ReasonKind::left_without: return "Such vehicles left the works without it.";
      case ReasonKind::partly_silent: return "For part of the builds that remain the pack is silent.";
      case ReasonKind::comes_and_goes: return "It was " + fitted_words(*fact_) + " when new and bolts on and off, so it says little about originality.";
      case ReasonKind::often_changed: return "It is changed so easily and so often that it says little about originality.";
      case ReasonKind::may_be_added: return "It was " + fitted_words(*fact_) + " when new" + scope_and_period(t_.axes, *fact_) + ", and may also have been added later.";
      case ReasonKind::right_for_some: return "Right for some of the builds that remain (" + percent(v_.works_share()) + " of the odds) and not for the others; see what to look at next.";
      case ReasonKind::changed_looks_same: return "The kind that the works fitted, but a changed one would look the same.";
      case ReasonKind::slip_likelier: return "Not the kind that the works fitted (" + instead() + "); a slip of the eye is likelier than a change, so look again.";
      case ReasonKind::not_beyond_doubt: return "Not the kind that the works fitted (" + instead() + "); rather a change, but one look doesn't settle it." + how();
      case ReasonKind::silent:
      case ReasonKind::of_no_build:
      case ReasonKind::changed: break;
    }
    return {};
  }

  std::string instead() const {
    if (r_.instead.empty()) return "another kind";
    std::vector<std::string> names;
    for (std::size_t v : r_.instead) names.push_back(v == f_.other() ? "none" : "'" + f_.values[v].name + "'");
    return join_and(names);
  }

  std::string changed() const { return "Doesn't belong on " + leading_build(t_, m_) + ", which had " + instead() + " when new." + how(); }

  std::string of_no_build() const { return "The pack doesn't say what the vehicles that fit left the works with, but none of the family left them with this." + how(); }

  /// How it came there: in a sentence where one explanation has nearly all the odds, else with the odds of each.
  std::string how() const {
    // Where the pack names a change that leaves just this, it's idle to tell it from the same change unnamed.
    std::vector<Explanation> all = r_.explanations;
    const bool named = std::any_of(all.begin(), all.end(), [](const Explanation& e) { return e.cause == Cause::known_change; });
    if (named) std::erase_if(all, [](const Explanation& e) { return e.cause == Cause::family_by_itself; });
    if (all.empty()) return {};
    if (all.size() == 1) return alone(all.front());
    std::string ways;
    for (const Explanation& e : all) ways += (ways.empty() ? "" : "; ") + way(e) + ", " + percent(e.p);
    return " How it came there: " + ways + ".";
  }

  std::string alone(const Explanation& e) const {
    switch (e.cause) {
      case Cause::known_change:
      case Cause::outside_donor: return " A known change: " + t_.changes[*e.change].name + ".";
      case Cause::conversion: return " It came with a conversion: " + t_.conversions[*e.conversion].name + ".";
      case Cause::donor: return " Right for " + donors(*e.donor) + ".";
      case Cause::unnamed_donor: return " Its assembly came from outside the family.";
      case Cause::outside_by_itself: return v_.noted_none_of_these(t_) ? " It is none of the kinds that the pack knows." : "";
      case Cause::family_by_itself: return fact_ != nullptr ? " It was " + fitted_words(*fact_) + scope_and_period(t_.axes, *fact_) + "." : "";
      case Cause::as_built: break;
    }
    return {};
  }

  std::string way(const Explanation& e) const {
    switch (e.cause) {
      case Cause::known_change:
      case Cause::outside_donor: return "a known change (" + t_.changes[*e.change].name + ")";
      case Cause::conversion: return "a conversion (" + t_.conversions[*e.conversion].name + ")";
      case Cause::donor: return "from " + donors(*e.donor);
      case Cause::unnamed_donor: return "with an assembly from outside the family";
      case Cause::outside_by_itself: return "a part from outside the family";
      case Cause::family_by_itself: return "a part of the family, by itself";
      case Cause::as_built: break;
    }
    return {};
  }

  static std::string donors(const DonorDates& d) { return d.from == d.to ? "a donor of " + to_words(d.from) : "donors of " + to_words(d.from) + " to " + to_words(d.to); }

  const Tables& t_;
  const Marginals& m_;
  const FeatureVerdict& v_;
  const FeatureInfo& f_;
  const Reason& r_;
  const FactInfo* fact_;
};

std::string sign_words(PartSign sign) {
  switch (sign) {
    case PartSign::worn_like_the_rest: return "wear like the rest of the vehicle";
    case PartSign::fresher: return "fresher than the rest of the vehicle";
    case PartSign::more_worn: return "more worn than the rest of the vehicle";
    case PartSign::makers_mark: return "the maker's mark";
    case PartSign::other_makers_mark: return "another maker's mark";
    case PartSign::no_mark: return "no maker's mark";
    case PartSign::code_supports: return "a date code from before or about the build";
    case PartSign::code_after: return "a date code from after the build";
    case PartSign::code_long_before: return "a date code from long before the build";
  }
  return {};
}

double at_least_one(double ratio) { return ratio >= 1 ? ratio : 1 / ratio; }

}  // namespace

std::string observed_words(const Tables& t, const FeatureVerdict& f) { return t.values_name(f.finding.feature, f.noted); }

std::string feature_words(const Tables& t, const FeatureVerdict& f) { return t.features[f.finding.feature].name + ": " + observed_words(t, f); }

std::string reason_words(const Tables& t, const Marginals& m, const FeatureVerdict& f) { return Sentence(t, m, f).run(); }

std::string doubt_words(const FeatureVerdict& f) {
  if (f.finding.silent()) return "silent";
  return (f.lean && *f.lean != Lean::open ? word(*f.lean) + ", " : "") + percent(f.p);
}

std::string strength_words(double ratio) { return support_words(std::min(ratio, 9'999.0)); }

std::string strength_words(const FeatureVerdict& f) {
  const double ratio = f.finding.likelihood_ratio, strength = at_least_one(ratio);
  return strength_words(strength) + (supports_neither(strength) ? "" : ratio >= 1 ? " for as built" : " for a later change");
}

std::string strength_sentence(const FeatureVerdict& f) {
  const double ratio = f.finding.likelihood_ratio;
  if (supports_neither(at_least_one(ratio))) return "This observation supports neither as built nor changed.";
  return "This observation gives " + strength_words(f) + ": it is about " + ratio_words(ratio) + " times more likely on " +
         (ratio >= 1 ? "a vehicle that still has the type as built." : "a vehicle on which it was changed.");
}

bool type_only(const FeatureVerdict& f) { return f.verdict == VerdictKind::original && f.part.signs.empty(); }

std::string part_words(const FeatureVerdict& f) {
  if (f.verdict == VerdictKind::later_change) return "not the part fitted when new";
  if (f.part.signs.empty()) return type_only(f) ? "right type; not shown to be the part fitted when new" : "not shown";
  std::vector<std::string> signs;
  for (PartSign sign : f.part.signs) signs.push_back(sign_words(sign));
  const double strength = at_least_one(f.part.ratio);
  return (f.verdict == VerdictKind::original ? "right type; " : "") + join_and(signs) + ": " + strength_words(strength) +
         (supports_neither(strength) ? "" : f.part.ratio >= 1 ? " for its being the part fitted when new" : " for its being a later part");
}

std::string going_back(const FeatureVerdict& f) {
  std::string out;
  if (f.reversible != Reversible::unknown) out = f.reversible == Reversible::yes ? "It comes off again" : f.reversible == Reversible::no ? "It does not come off again" : "It comes off again in part";
  if (f.hours > 0) out += (out.empty() ? "To put back: about " : ", about ") + hours_words(f.hours);
  return out.empty() ? out : out + ".";
}

}  // namespace exworks
