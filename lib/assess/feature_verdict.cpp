#include "assess/feature_verdict.hpp"

#include <algorithm>

#include "assess/marginals.hpp"

namespace exworks {

namespace {

struct WeighedFact {
  std::size_t fact;
  double weight;  ///< odds of the builds in which it binds
};

/// The facts that bind in the builds that remain, heaviest first.
std::vector<WeighedFact> binding_facts(const VerdictInputs& in, FeatureIndex feature) {
  const FeatureInfo& f = in.tables.features[feature];
  const std::vector<double> by_column = in.posterior.column_mass(in.tables, feature);
  std::vector<double> weight(f.facts.size(), 0.0);
  for (std::size_t c = 0; c < by_column.size(); ++c) {
    for (std::size_t fact : f.columns[c].facts) weight[fact] += by_column[c];
  }
  std::vector<WeighedFact> out;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    if (weight[i] > in.settings.fact_counts_from) out.push_back({i, weight[i]});
  }
  std::stable_sort(out.begin(), out.end(), [](const WeighedFact& a, const WeighedFact& b) { return a.weight > b.weight; });
  return out;
}

/// How much a sign speaks for its being the part fitted when new; judgement, common practice, no source.
double ratio_of(PartSign sign) {
  switch (sign) {
    case PartSign::worn_like_the_rest: return 3;
    case PartSign::fresher: return 0.2;
    case PartSign::more_worn: return 0.2;
    case PartSign::makers_mark: return 2;
    case PartSign::other_makers_mark: return 0.1;
    case PartSign::no_mark: return 0.7;
    case PartSign::code_supports: return 5;
    case PartSign::code_after: return 0.01;
    case PartSign::code_long_before: return 0.5;
  }
  return 1;
}

class FeatureJudge {
 public:
  FeatureJudge(const VerdictInputs& inputs, FeatureVerdict& out)
      : in_(inputs), out_(out), x_(out.finding), f_(inputs.tables.features[x_.feature]), seen_(inputs.evidence.seen[x_.seen]), facts_(binding_facts(inputs, x_.feature)) {}

  void run() {
    decide();
    if (out_.verdict == VerdictKind::later_change) {
      explain_change();
      going_back();
    }
    reason();
    cite();
    part();
  }

 private:
  bool likely_as_built() const { return out_.p >= 0.5; }

  bool noted(std::size_t value) const { return std::find(seen_.left_open.begin(), seen_.left_open.end(), value) != seen_.left_open.end(); }

  void decide() {
    out_.p = x_.silent() ? x_.p_type : x_.type_where_spoken();
    out_.verdict = verdict_by_odds(in_.tables, x_, seen_, in_.settings);
    bool any = false, all_memory = true;
    for (const WeighedFact& w : facts_) {
      if (f_.facts[w.fact].fitted != Fitted::standard && !noted(f_.facts[w.fact].value)) continue;
      if (likely_as_built() && !noted(f_.facts[w.fact].value)) continue;
      any = true;
      all_memory = all_memory && f_.facts[w.fact].memory_only;
    }
    out_.reason.memory_alone = any && all_memory && !known_change_alone();
    if (out_.reason.memory_alone && !in_.settings.memory_decides) out_.verdict = VerdictKind::uncertain;
    if (out_.verdict != VerdictKind::uncertain || x_.silent()) return;
    out_.lean = out_.p <= in_.settings.rather_later_to ? Lean::rather_later : out_.p >= in_.settings.rather_original_from ? Lean::rather_original : Lean::open;
  }

  /// A kind that no vehicle of the family left the works with, and that a sourced line knows as a change: whatever the works did fit, it was another.
  bool known_change_alone() const {
    const auto alone = [&](ValueIndex v) { return v < f_.volume.size() && f_.volume[v] <= 0 && (set_by(in_.tables.changes, v) || set_by(in_.tables.conversions, v)); };
    return !likely_as_built() && std::all_of(seen_.left_open.begin(), seen_.left_open.end(), alone);
  }

  template <class Changes>
  bool set_by(const Changes& changes, ValueIndex value) const {
    const auto sourced = [&](std::size_t s) { return in_.tables.catalogue.sources[s].kind != SourceKind::memory; };
    return std::any_of(changes.begin(), changes.end(), [&](const auto& c) {
      const auto sets = [&](const auto& s) { return s.feature == x_.feature && s.value == value; };
      return std::any_of(c.sets.begin(), c.sets.end(), sets) && std::any_of(c.sources.begin(), c.sources.end(), sourced);
    });
  }

  const AssemblyFinding* assembly() const {
    if (!f_.assembly) return nullptr;
    for (const AssemblyFinding& a : in_.assemblies) {
      if (a.assembly == *f_.assembly) return &a;
    }
    return nullptr;
  }

  /// How a change came about: the likeliest way, and what else has some odds.
  void explain_change() {
    for (const CauseOdds& c : x_.explanations) {
      if (c.p <= 0 || (!out_.reason.explanations.empty() && c.p < in_.settings.explanation_from)) break;
      Explanation e{c.cause, c.p, {}, {}, {}};
      if (c.cause == Cause::known_change || c.cause == Cause::outside_donor) e.change = c.index;
      if (c.cause == Cause::conversion) e.conversion = c.index;
      if (c.cause == Cause::donor) e.donor = donor_dates(*assembly());
      out_.reason.explanations.push_back(e);
    }
  }

  /// What going back takes: that of the change which explains it best.
  void going_back() {
    const Explanation* e = out_.explained();
    if (e == nullptr) return;
    if (const NamedChange* change = named_change(in_.tables, out_)) {
      out_.reversible = change->reversible;
      out_.hours = change->hours;
    } else if (e->cause == Cause::donor || e->cause == Cause::unnamed_donor) {
      const AssemblyInfo& a = in_.tables.assemblies[*f_.assembly];
      out_.reversible = a.reversible;
      out_.hours = a.hours;
    }
  }

  DonorDates donor_dates(const AssemblyFinding& a) const {
    double family = 1 - a.p_unnamed;
    for (const auto& [change, p] : a.outside) family -= p;
    Month first;
    const DateSet d = shortest_window(month_odds(in_.tables, a.donor, &first), first, in_.settings.level);
    return {d.from, d.to, a.p_replaced * family};
  }

  /// What the works fitted in place of what was noted.
  std::vector<std::size_t> instead() const {
    std::vector<std::size_t> values;
    for (std::size_t v = 0; v < f_.values.size(); ++v) {
      if (x_.works[v] > in_.settings.value_named_from && !noted(v)) values.push_back(v);
    }
    if (values.empty() && x_.works.back() > 0.5) values.push_back(f_.other());
    return values;
  }

  /// The heaviest fact that puts there what was noted.
  std::optional<std::size_t> own_fact() const {
    for (const WeighedFact& w : facts_) {
      if (noted(f_.facts[w.fact].value)) return w.fact;
    }
    return std::nullopt;
  }

  /// Where the pack does know what was noted.
  std::optional<std::size_t> fact_elsewhere() const {
    for (std::size_t i = 0; i < f_.facts.size(); ++i) {
      if (noted(f_.facts[i].value)) return i;
    }
    return std::nullopt;
  }

  void reason() {
    Reason& r = out_.reason;
    const std::optional<std::size_t> own = own_fact();
    if (x_.silent()) {
      r.kind = out_.verdict == VerdictKind::later_change ? ReasonKind::of_no_build : ReasonKind::silent;
    } else if (out_.verdict == VerdictKind::original || (r.memory_alone && own && likely_as_built())) {
      r.kind = own ? ReasonKind::as_built : f_.of_number ? ReasonKind::in_range : ReasonKind::left_without;
      r.fact = own;
    } else if (out_.verdict == VerdictKind::later_change) {
      r.kind = ReasonKind::changed;
      r.instead = instead();
      if (r.explanations.empty() || r.explanations.front().cause == Cause::family_by_itself) r.fact = fact_elsewhere();
    } else {
      r.kind = why_uncertain(own);
      if (r.kind == ReasonKind::comes_and_goes || r.kind == ReasonKind::may_be_added) r.fact = own;
      if (r.kind == ReasonKind::not_beyond_doubt) explain_change();
      if (r.kind == ReasonKind::slip_likelier || r.kind == ReasonKind::not_beyond_doubt) r.instead = instead();
    }
  }

  ReasonKind why_uncertain(const std::optional<std::size_t>& own) const {
    const double works = out_.works_share();
    const bool optional = own && f_.facts[*own].fitted != Fitted::standard, often = f_.altered >= in_.settings.often_changed_from;
    if (x_.p_silent > in_.settings.partly_silent_from) return ReasonKind::partly_silent;
    if (often) return optional ? ReasonKind::comes_and_goes : ReasonKind::often_changed;
    if (optional) return ReasonKind::may_be_added;
    if (works > in_.settings.fact_counts_from && works < 1 - in_.settings.fact_counts_from) return ReasonKind::right_for_some;
    if (works >= 0.5) return ReasonKind::changed_looks_same;
    return x_.p_misread >= 0.5 ? ReasonKind::slip_likelier : ReasonKind::not_beyond_doubt;
  }

  void cite() {
    if (x_.silent()) return;
    Reason& r = out_.reason;
    for (const WeighedFact& w : facts_) {
      if (likely_as_built() && !noted(f_.facts[w.fact].value)) continue;
      if (r.facts.size() < 4) r.facts.push_back(w.fact);
    }
    const auto add = [&](const std::vector<std::size_t>& sources) {
      for (std::size_t s : sources) {
        if (std::find(r.sources.begin(), r.sources.end(), s) == r.sources.end()) r.sources.push_back(s);
      }
    };
    for (std::size_t i : r.facts) add(f_.facts[i].sources);
    if (const NamedChange* change = named_change(in_.tables, out_)) add(change->sources);
  }

  /// The very part: how it was found (nothing changed), times what its own wear and marks say.
  void part() {
    PartEvidence& part = out_.part;
    if (seen_.observation) {
      const Observation& o = in_.inspection.observations[*seen_.observation];
      const auto sign = [&](bool there, PartSign which) {
        if (!there) return;
        part.signs.push_back(which);
        part.ratio *= ratio_of(which);
      };
      sign(o.wear == Wear::consistent, PartSign::worn_like_the_rest);
      sign(o.wear == Wear::fresher, PartSign::fresher);
      sign(o.wear == Wear::older, PartSign::more_worn);
      sign(o.mark == MakersMark::maker, PartSign::makers_mark);
      sign(o.mark == MakersMark::other_maker, PartSign::other_makers_mark);
      sign(o.mark == MakersMark::none, PartSign::no_mark);
      for (const CodeVerdict& c : in_.codes) {
        if (in_.inspection.codes[c.code].feature != f_.id) continue;
        sign(c.timing == Timing::supports, PartSign::code_supports);
        sign(c.timing == Timing::after, PartSign::code_after);
        sign(c.timing == Timing::long_before, PartSign::code_long_before);
      }
    }
    const double p = std::min(x_.p_untouched, 1.0);
    part.p = p * part.ratio / (p * part.ratio + (1 - p));
  }

  const VerdictInputs& in_;
  FeatureVerdict& out_;
  const FeatureFinding& x_;
  const FeatureInfo& f_;
  const Seen& seen_;
  std::vector<WeighedFact> facts_;
};

}  // namespace

double FeatureVerdict::works_share() const {
  double out = 0;
  for (std::size_t v : noted) out += finding.works[v];
  return out;
}

const NamedChange* named_change(const Tables& tables, const FeatureVerdict& verdict) {
  const Explanation* e = verdict.explained();
  if (e != nullptr && e->change) return &tables.changes[*e->change];
  if (e != nullptr && e->conversion) return &tables.conversions[*e->conversion];
  return nullptr;
}

VerdictKind verdict_by_odds(const Tables& tables, const FeatureFinding& finding, const Seen& seen, const Settings& settings) {
  if (finding.silent()) {
    const std::vector<double>& volume = tables.features[finding.feature].volume;
    const bool foreign = std::all_of(seen.left_open.begin(), seen.left_open.end(), [&](std::size_t v) { return v >= volume.size() || volume[v] <= 0; });
    return foreign && finding.p_type <= settings.later_to ? VerdictKind::later_change : VerdictKind::uncertain;
  }
  const double type = finding.type_where_spoken();
  return type >= settings.original_from ? VerdictKind::original : type <= settings.later_to ? VerdictKind::later_change : VerdictKind::uncertain;
}

FeatureVerdict judge_feature(const VerdictInputs& inputs, const FeatureFinding& finding) {
  FeatureVerdict out;
  out.finding = finding;
  const Seen& seen = inputs.evidence.seen[finding.seen];
  out.noted = seen.left_open;
  out.observation = seen.observation;
  out.number = seen.number;
  out.measure = seen.measure;
  FeatureJudge(inputs, out).run();
  return out;
}

}  // namespace exworks
