#include "report/kinds/console.hpp"

#include <algorithm>
#include <cstdio>

#include "base/text.hpp"
#include "words/claims.hpp"
#include "words/codes.hpp"
#include "words/english/scales.hpp"
#include "words/numbers.hpp"
#include "words/readings.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

std::string hours_words(double h) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, h == static_cast<int>(h) ? "%.0f h" : "%.1f h", h);
  return buffer;
}

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }
Text strong(std::string words) { return {std::move(words), {}, Mark::none, true, false}; }
Text quiet(std::string words) { return {std::move(words), {}, Mark::none, false, true}; }

Finding number_finding(const Tables& t, const NumberVerdict& n, bool within) {
  const NumberInfo& info = t.numbers[n.number];
  const std::string form = form_name(t, n), note = number_note(t, n);
  Finding out{info.name + " " + n.text, within ? agreement_words(n) : "", Mark::none, {}, {}, {}};
  if (!form.empty()) out.particulars.emplace_back("Form", form);
  for (const PartWords& p : number_parts(t, n)) out.particulars.emplace_back(p.name, (p.text.empty() ? "(left out)" : p.text) + (p.means.empty() ? "" : ": " + p.means));
  for (const std::string& s : slips_of(n)) out.particulars.emplace_back("Forgiven", s);
  if (n.window) out.particulars.emplace_back("Built", span_words(*n.window) + ", by the number alone");
  if (within && n.p_own) out.particulars.emplace_back("Its own", percent(*n.p_own));
  if (!within) out.particulars.emplace_back("Where", info.where);
  if (!note.empty()) out.lines.push_back(plain(note));
  return out;
}

template <class Items>
std::string odds_list(const std::vector<Odds>& odds, const Items& items) {
  std::string out;
  double rest = 0;
  int shown = 0;
  for (const Odds& o : odds) {
    if (shown < 4 && (shown == 0 || o.p >= 0.02)) {
      out += (out.empty() ? "" : "; ") + items[o.index].name + " " + percent(o.p);
      ++shown;
    } else {
      rest += o.p;
    }
  }
  if (rest >= 0.01) out += "; others " + percent(rest);
  return out;
}

/// The sections of the console report, in their order.
class Console {
 public:
  Console(const Case& of, bool full) : of_(of), t_(of.tables), in_(of.inspection), a_(of.assessment), full_(full) {}

  Report run() {
    top();
    builds();
    claims();
    documents();
    numbers();
    codes();
    readings();
    later_changes();
    uncertain();
    originals();
    states();
    score();
    cautions();
    d_.blocks.push_back(References{});
    legend();
    return std::move(d_);
  }

 private:
  void top() {
    d_.kind = "Assessment";
    d_.title = vehicle_name(in_);
    std::string line = t_.name + ", pack " + t_.edition();
    if (a_.inspected) line += "; inspected " + to_words(*a_.inspected);
    d_.particulars.push_back(line);
    for (const Remark& r : a_.remarks) d_.particulars.push_back(remark_words(in_, r));
    if (!a_.features.empty()) d_.particulars.push_back(in_short());
  }

  /// The counts add up to the features observed.
  std::string in_short() const {
    const VerdictCounts n = verdict_counts(a_);
    const auto comes_off = std::count_if(a_.features.begin(), a_.features.end(), [](const FeatureVerdict& f) { return f.verdict == VerdictKind::later_change && f.reversible == Reversible::yes; });
    std::string text = "In short: " + std::to_string(n.all()) + (n.all() == 1 ? " feature was observed. " : " features were observed. ") + std::to_string(n.original) +
                       (n.original == 1 ? " is" : " are") + " of the type fitted when new, " + std::to_string(n.later) + (n.later == 1 ? " is a later change" : " are later changes");
    if (comes_off > 0) text += " (" + std::to_string(comes_off) + (comes_off == 1 ? " of them comes off again)" : " of them come off again)");
    return text + ", " + std::to_string(n.uncertain) + (n.uncertain == 1 ? " is" : " are") + " uncertain.";
  }

  void builds() {
    d_.heading(2, "What it is");
    const Odds& best = a_.variants.front();
    const auto line = [](const char* name, Text text) { return std::pair<std::string, Text>(name, std::move(text)); };
    Pairs p{{line("Most likely", strong(t_.axes.variants[best.index].name + ": " + odds_words(best.p))),
             line("Built", plain(span_words(a_.date.from, a_.date.to) + " (90 % of the odds), most likely " + to_words(a_.date.most_likely))),
             line("Generation", plain(odds_list(a_.generations, t_.axes.generations))),
             line("Variant", plain(odds_list(a_.variants, t_.axes.variants))),
             line("Market", plain(odds_list(a_.markets, t_.axes.markets))),
             line("Plant", plain(odds_list(a_.plants, t_.axes.plants)))}};
    if (!a_.hinges_on.empty()) p.items.push_back(line("Hangs on", plain(names_of(t_, a_.hinges_on) + ": without it another variant leads")));
    if (!a_.features.empty()) p.items.push_back(line("Altered", plain(alteration_words(t_, a_))));
    p.items.push_back(line("Fit", a_.fit.bad() ? strong(fit_words(a_)) : plain(fit_words(a_))));
    d_.blocks.push_back(std::move(p));
  }

  Finding& finding(std::string title, std::string figure, Mark mark = Mark::none) {
    d_.blocks.push_back(Finding{std::move(title), std::move(figure), mark, {}, {}, {}});
    return std::get<Finding>(d_.blocks.back());
  }

  void claims() {
    if (a_.claims.empty()) return;
    d_.heading(2, "What was claimed");
    for (const ClaimVerdict& c : a_.claims) {
      const Claim& claim = in_.claims[c.claim];
      Finding& f = finding(claim_words(t_, claim) + (claim.by.empty() ? "" : " (" + claim.by + ")"), percent(c.p));
      f.lines.push_back(plain(support_words(a_, c)));
    }
  }

  void documents() {
    if (a_.documents.empty()) return;
    d_.heading(2, "Papers, and how likely each is to be right of this vehicle");
    for (const DocumentVerdict& d : a_.documents) finding(paper_words(in_, d.paper), percent(d.p_right));
  }

  void numbers() {
    if (a_.numbers.empty()) return;
    d_.heading(2, "Numbers");
    for (const NumberVerdict& n : a_.numbers) d_.blocks.push_back(number_finding(t_, n, true));
  }

  void codes() {
    if (a_.codes.empty()) return;
    d_.heading(2, "Date codes on parts");
    for (const CodeVerdict& c : a_.codes) {
      const DateCode& code = in_.codes[c.code];
      const std::string words = timing_words(c), remark = code_remark(c);
      Finding& f = finding(code.kind + (code.text.empty() ? "" : " " + code.text) + (code.feature.empty() ? "" : " on " + t_.feature_name(code.feature)), std::string(word(c.timing)));
      if (!c.reading.candidates.empty()) f.lines.push_back(plain("Made: " + join_and(code_dates(c)) + "."));
      if (!words.empty()) f.lines.push_back(plain(words));
      if (!remark.empty()) f.lines.push_back(plain(remark));
      if (full_) f.lines.push_back(quiet("Rule: " + c.reading.source));
    }
  }

  void readings() {
    if (a_.readings.empty()) return;
    d_.heading(2, "Readings: the same observations, taken as given");
    for (const Reading& r : a_.readings) {
      Finding& f = finding(taken_words(of_, r), percent(r.p));
      if (!r.possible) {
        f.lines.push_back(plain("No build of this pack allows it."));
        continue;
      }
      f.lines.push_back(plain(upper_first(build_words(t_, r)) + "."));
      f.lines.push_back(plain(later_words(t_, r)));
    }
    d_.paragraph("The figure is the probability of the condition itself. The choice between readings is the reader's.", true);
  }

  void heading_of(VerdictKind kind, const std::string& title) {
    const auto count = std::count_if(a_.features.begin(), a_.features.end(), [&](const FeatureVerdict& f) { return f.verdict == kind; });
    if (count > 0) d_.heading(2, title + " (" + std::to_string(count) + " of " + std::to_string(a_.features.size()) + " observed)");
  }

  Text reason(const FeatureVerdict& f) const { return {reason_words(t_, a_, f), f.reason.sources, Mark::none, false, false}; }

  /// What is one change is told once: features that came with the same known change, or with the same replaced assembly.
  void later_changes() {
    heading_of(VerdictKind::later_change, "Later changes");
    for (const ChangeGroup& group : change_groups(t_, a_)) {
      const FeatureVerdict& f = a_.features[group.front()];
      for (std::size_t i : group) finding(feature_words(t_, a_.features[i]), percent(a_.features[i].p), Mark::later);
      Finding& last = std::get<Finding>(d_.blocks.back());
      last.lines.push_back(reason(f));
      for (std::size_t k = 1; k < group.size(); ++k) detail(a_.features[group[k]], last);
      going_back(f, last);
      detail(f, last);
    }
  }

  void going_back(const FeatureVerdict& f, Finding& out) const {
    std::string back;
    if (f.reversible != Reversible::unknown) back = f.reversible == Reversible::yes ? "It comes off again" : f.reversible == Reversible::no ? "It does not come off again" : "It comes off again in part";
    if (f.hours > 0) back += (back.empty() ? "" : ", ") + std::string("about ") + hours_words(f.hours);
    if (!back.empty()) out.lines.push_back(plain(upper_first(back) + "."));
    if (const NamedChange* change = named_change(t_, f); change != nullptr && !change->spot.empty()) out.lines.push_back(plain("How to tell: " + change->spot));
  }

  void uncertain() {
    heading_of(VerdictKind::uncertain, "Uncertain");
    for (const FeatureVerdict& f : a_.features) {
      if (f.verdict != VerdictKind::uncertain) continue;
      Finding& out = finding(feature_words(t_, f), doubt_words(f), Mark::uncertain);
      out.lines.push_back(reason(f));
      detail(f, out);
    }
  }

  /// A line each unless everything is wanted: on a good vehicle there are many.
  void originals() {
    heading_of(VerdictKind::original, "Original type");
    bool any = false;
    for (const FeatureVerdict& f : a_.features) {
      if (f.verdict != VerdictKind::original) continue;
      any = true;
      Finding& out = finding(feature_words(t_, f), percent(f.p), Mark::original);
      if (full_) out.lines.push_back(reason(f));
      else out.sources = f.reason.sources;
      if (full_ || !type_only(f)) detail(f, out);
    }
    if (!full_ && any) d_.paragraph("Where nothing else is said: right type; not shown to be the part fitted when new. --full gives the facts behind each line.", true);
  }

  void detail(const FeatureVerdict& f, Finding& out) const {
    if (full_ && !f.finding.silent()) {
      const bool neither = supports_neither(std::max(f.finding.likelihood_ratio, 1 / f.finding.likelihood_ratio));
      out.lines.push_back(quiet(t_.features[f.finding.feature].name + ": this observation " + (neither ? "supports neither as built nor changed" : "gives " + strength_words(f)) + " (ratio " + ratio_words(f.finding.likelihood_ratio) + ")."));
    }
    if (f.verdict == VerdictKind::original || full_) out.lines.push_back(quiet("Part: " + part_words(f) + "."));
    if (!f.hinges_on.empty()) out.lines.push_back(quiet("'" + t_.features[f.finding.feature].name + "' hangs on: " + names_of(t_, f.hinges_on) + "."));
    const std::string noted = noted_words(of_, f);
    if (!noted.empty() && (full_ || f.verdict != VerdictKind::original)) out.lines.push_back(quiet("Noted: " + noted));
  }

  void states() {
    if (a_.missing.empty() && a_.cannot_tell.empty()) return;
    d_.heading(2, "Not judged");
    Pairs p;
    const auto line = [&](const std::vector<std::size_t>& observations, const std::string& label) {
      std::vector<std::string> names;
      for (std::size_t o : observations) names.push_back(t_.feature_name(in_.observations[o].feature) + (in_.observations[o].note.empty() ? "" : " (" + in_.observations[o].note + ")"));
      if (!names.empty()) p.items.emplace_back(label, plain(join_and(names)));
    };
    line(a_.missing, "Missing");
    line(a_.cannot_tell, "Can't be told");
    d_.blocks.push_back(std::move(p));
  }

  void score() {
    d_.heading(2, "Originality of type");
    if (a_.score.weight == 0) return d_.paragraph("Nothing that was observed can be scored.");
    d_.paragraph(percent(a_.score.value) + " of the inspected weight is as built (90 % interval " + percent(a_.score.low) + " to " + percent(a_.score.high) +
                 "), from " + percent(a_.score.coverage) + " of the vehicle's weight inspected. Type, not part: a like-for-like replacement counts as built.");
  }

  void cautions() {
    d_.heading(2, "Take care");
    for (std::size_t c : a_.cautions) d_.paragraph(t_.catalogue.cautions[c].name + ": " + t_.catalogue.cautions[c].text);
    d_.paragraph("Local codes and licensed practice come first; whether it may be used on the road is for the authority to decide.");
  }

  void legend() {
    d_.heading(2, "How to read this");
    d_.paragraph("The figure beside a feature is the probability that it is now of the type with which this vehicle left the works, given everything observed and the pack. "
                 "Original: " + percent(a_.settings.original_from) + " or more; later change: " + percent(a_.settings.later_to) + " or less. Support is a likelihood ratio in the words of the scale usually given "
                 "as ENFSI 2015, capped at 'strong' because the rates of change are judgement (common practice, no source). Nothing here is proof of identity or of value.");
  }

  const Case& of_;
  const Tables& t_;
  const Inspection& in_;
  const Assessment& a_;
  bool full_;
  Report d_;
};

}  // namespace

Report console_report(const Case& of, bool full) { return Console(of, full).run(); }

Report console_number(const Tables& tables, const NumberVerdict& number) {
  Report d;
  d.title = tables.name;
  d.blocks.push_back(number_finding(tables, number, false));
  return d;
}

}  // namespace exworks
