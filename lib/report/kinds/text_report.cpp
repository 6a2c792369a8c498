#include "report/kinds/text_report.hpp"

#include <algorithm>
#include <cstdio>

#include "base/text.hpp"
#include "report/render/page.hpp"
#include "report/render/source_list.hpp"
#include "report/kinds/parts.hpp"
#include "words/claims.hpp"
#include "words/codes.hpp"
#include "words/numbers.hpp"
#include "words/readings.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

std::string hours_words(double h) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, h == static_cast<int>(h) ? "%.0f h" : "%.1f h", h);
  return buffer;
}

class Reporter {
 public:
  Reporter(const Case& of, bool colour, bool full) : of_(of), t_(of.tables), in_(of.inspection), a_(of.assessment), page_(colour), full_(full) {}

  std::string run() {
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
    list_sources(t_, cited_, false, page_);
    legend();
    return page_.text();
  }

 private:
  void top() {
    page_.heading("Assessment: " + vehicle_name(in_));
    std::string line = t_.name + ", pack " + t_.edition();
    if (a_.inspected) line += "; inspected " + to_words(*a_.inspected);
    page_.paragraph(line);
    for (const Remark& r : a_.remarks) page_.paragraph(remark_words(in_, r));
    if (!a_.features.empty()) page_.paragraph(in_short());
  }

  /// The counts add up to the features observed.
  std::string in_short() const {
    std::size_t original = 0, later = 0, comes_off = 0;
    for (const FeatureVerdict& f : a_.features) {
      original += f.verdict == VerdictKind::original;
      later += f.verdict == VerdictKind::later_change;
      comes_off += f.verdict == VerdictKind::later_change && f.reversible == Reversible::yes;
    }
    const std::size_t open = a_.features.size() - original - later;
    std::string text = "In short: " + std::to_string(a_.features.size()) + " features were observed. " + std::to_string(original) + " are of the type fitted when new, " +
                       std::to_string(later) + (later == 1 ? " is a later change" : " are later changes");
    if (later > 0) text += " (" + std::to_string(comes_off) + (comes_off == 1 ? " of them comes off again)" : " of them come off again)");
    return text + ", " + std::to_string(open) + (open == 1 ? " is" : " are") + " uncertain.";
  }

  void builds() {
    page_.heading("What it is");
    const Odds& best = a_.variants.front();
    page_.pair("Most likely", t_.axes.variants[best.index].name + ": " + odds_words(best.p), 2, 16, Page::Tone::strong);
    page_.pair("Built", span_words(a_.date.from, a_.date.to) + " (90 % of the odds), most likely " + to_words(a_.date.most_likely));
    page_.pair("Generation", list(a_.generations, t_.axes.generations));
    page_.pair("Variant", list(a_.variants, t_.axes.variants));
    page_.pair("Market", list(a_.markets, t_.axes.markets));
    page_.pair("Plant", list(a_.plants, t_.axes.plants));
    if (!a_.hinges_on.empty()) page_.pair("Hangs on", names_of(t_, a_.hinges_on) + ": without it another variant leads");
    page_.pair("Fit", fit_words(a_), 2, 16, a_.fit.bad() ? Page::Tone::bad : Page::Tone::plain);
  }

  template <class Items>
  static std::string list(const std::vector<Odds>& odds, const Items& items) {
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

  void claims() {
    if (a_.claims.empty()) return;
    page_.heading("What was claimed");
    for (const ClaimVerdict& c : a_.claims) {
      const Claim& claim = in_.claims[c.claim];
      page_.leader(claim_words(t_, claim) + (claim.by.empty() ? "" : " (" + claim.by + ")"), percent(c.p));
      if (c.p <= a_.settings.later_to) page_.paragraph("Not what the observations show; see above.", 4);
    }
  }

  void documents() {
    if (a_.documents.empty()) return;
    page_.heading("Papers, and how likely each is to be right of this vehicle");
    for (const DocumentVerdict& d : a_.documents) page_.leader(paper_words(in_, d.paper), percent(d.p_right));
  }

  void numbers() {
    if (a_.numbers.empty()) return;
    page_.heading("Numbers");
    for (const NumberVerdict& n : a_.numbers) write_number(page_, t_, n, true);
  }

 public:
  static void write_number(Page& page, const Tables& t, const NumberVerdict& n, bool within) {
    const NumberInfo& info = t.numbers[n.number];
    const std::string form = form_name(t, n), note = number_note(t, n);
    page.leader(info.name + " " + n.text, within ? agreement_words(n) : "", 2, Page::Tone::strong);
    if (!form.empty()) page.pair("Form", form, 4, 20);
    for (const PartWords& p : number_parts(t, n)) page.pair(p.name, (p.text.empty() ? "(left out)" : p.text) + (p.means.empty() ? "" : ": " + p.means), 4, 20);
    for (const std::string& s : slips_of(n)) page.pair("Forgiven", s, 4, 20);
    if (n.window) page.pair("Built", span_words(*n.window) + ", by the number alone", 4, 20);
    if (within && n.p_own) page.pair("Its own", percent(*n.p_own), 4, 20);
    if (!within) page.pair("Where", info.where, 4, 20);
    if (!note.empty()) page.paragraph(note, 4);
  }

 private:
  void codes() {
    if (a_.codes.empty()) return;
    page_.heading("Date codes on parts");
    for (const CodeVerdict& c : a_.codes) {
      const DateCode& code = in_.codes[c.code];
      const std::string words = timing_words(c), remark = code_remark(c);
      page_.leader(code.kind + (code.text.empty() ? "" : " " + code.text) + (code.feature.empty() ? "" : " on " + t_.feature_name(code.feature)), word(c.timing), 2, Page::Tone::strong);
      if (!c.reading.candidates.empty()) page_.paragraph("Made: " + join_and(code_dates(c)) + ".", 4);
      if (!words.empty()) page_.paragraph(words, 4);
      if (!remark.empty()) page_.paragraph(remark, 4);
      if (full_) page_.paragraph("Rule: " + c.reading.source, 4, Page::Tone::faint);
    }
  }

  void readings() {
    if (a_.readings.empty()) return;
    page_.heading("Readings: the same observations, taken as given");
    for (const Reading& r : a_.readings) {
      page_.leader(taken_words(of_, r), percent(r.p), 2, Page::Tone::strong);
      if (!r.possible) {
        page_.paragraph("No build of this pack allows it.", 4);
        continue;
      }
      page_.paragraph(upper_first(build_words(t_, r)) + ".", 4);
      page_.paragraph(later_words(t_, r), 4);
    }
    page_.paragraph("The figure is the probability of the condition itself. The choice between readings is the reader's.", 2, Page::Tone::faint);
  }

  void heading_of(VerdictKind kind, const std::string& title) {
    const auto count = std::count_if(a_.features.begin(), a_.features.end(), [&](const FeatureVerdict& f) { return f.verdict == kind; });
    if (count > 0) page_.heading(title + " (" + std::to_string(count) + " of " + std::to_string(a_.features.size()) + " observed)");
  }

  /// What is one change is told once: features that came with the same known change, or with the same replaced assembly.
  void later_changes() {
    heading_of(VerdictKind::later_change, "Later changes");
    for (const ChangeGroup& group : change_groups(t_, a_)) {
      const FeatureVerdict& f = a_.features[group.front()];
      for (std::size_t i : group) page_.leader(feature_words(t_, a_.features[i]), percent(a_.features[i].finding.p_type), 2, Page::Tone::bad);
      page_.paragraph(reason_words(t_, a_, f) + cited_.after(f.reason.sources), 4);
      for (std::size_t k = 1; k < group.size(); ++k) detail(a_.features[group[k]]);
      going_back(f);
      detail(f);
    }
  }

  void going_back(const FeatureVerdict& f) {
    std::string back;
    if (f.reversible != Reversible::unknown) back = f.reversible == Reversible::yes ? "It comes off again" : f.reversible == Reversible::no ? "It does not come off again" : "It comes off again in part";
    if (f.hours > 0) back += (back.empty() ? "" : ", ") + std::string("about ") + hours_words(f.hours);
    if (!back.empty()) page_.paragraph(back + ".", 4);
    if (const auto change = f.known_change(); change && !t_.changes[*change].spot.empty()) page_.paragraph("How to tell: " + t_.changes[*change].spot, 4);
  }

  void uncertain() {
    heading_of(VerdictKind::uncertain, "Uncertain");
    for (const FeatureVerdict& f : a_.features) {
      if (f.verdict != VerdictKind::uncertain) continue;
      page_.leader(feature_words(t_, f), f.finding.silent() ? "silent" : percent(f.finding.p_type), 2, Page::Tone::doubt);
      page_.paragraph(reason_words(t_, a_, f) + cited_.after(f.reason.sources), 4);
      detail(f);
    }
  }

  /// A line each unless everything is wanted: on a good vehicle there are many.
  void originals() {
    heading_of(VerdictKind::original, "Original type");
    for (const FeatureVerdict& f : a_.features) {
      if (f.verdict != VerdictKind::original) continue;
      page_.leader(feature_words(t_, f) + (full_ ? "" : cited_.after(f.reason.sources)), percent(f.finding.p_type), 2, Page::Tone::good);
      if (full_) page_.paragraph(reason_words(t_, a_, f) + cited_.after(f.reason.sources), 4);
      if (full_ || !type_only(f)) detail(f);
    }
    if (!full_) page_.paragraph("Where nothing else is said: right type; not shown to be the part fitted when new. --full gives the facts behind each line.", 2, Page::Tone::faint);
  }

  void detail(const FeatureVerdict& f) {
    if (full_ && !f.finding.silent()) {
      const bool neither = supports_neither(std::max(f.finding.likelihood_ratio, 1 / f.finding.likelihood_ratio));
      page_.paragraph(t_.features[f.finding.feature].name + ": this observation " + (neither ? "supports neither as built nor changed" : "gives " + strength_words(f)) + " (ratio " + ratio_words(f.finding.likelihood_ratio) + ").", 4, Page::Tone::faint);
    }
    if (f.verdict == VerdictKind::original || full_) page_.paragraph("Part: " + part_words(f) + ".", 4, Page::Tone::faint);
    if (!f.hinges_on.empty()) page_.paragraph("'" + t_.features[f.finding.feature].name + "' hangs on: " + names_of(t_, f.hinges_on) + ".", 4, Page::Tone::faint);
    const std::string noted = noted_words(of_, f);
    if (!noted.empty() && (full_ || f.verdict != VerdictKind::original)) page_.paragraph("Noted: " + noted, 4, Page::Tone::faint);
  }

  void states() {
    const auto line = [&](const std::vector<std::size_t>& observations, const std::string& label) {
      std::vector<std::string> names;
      for (std::size_t o : observations) names.push_back(t_.feature_name(in_.observations[o].feature) + (in_.observations[o].note.empty() ? "" : " (" + in_.observations[o].note + ")"));
      if (!names.empty()) page_.pair(label, join_and(names), 2, 16);
    };
    if (a_.missing.empty() && a_.cannot_tell.empty()) return;
    page_.heading("Not judged");
    line(a_.missing, "Missing");
    line(a_.cannot_tell, "Can't be told");
  }

  void score() {
    page_.heading("Originality of type");
    if (a_.score.weight == 0) {
      page_.paragraph("Nothing that was observed can be scored.");
      return;
    }
    page_.paragraph(percent(a_.score.value) + " of the inspected weight is as built (90 % interval " + percent(a_.score.low) + " to " + percent(a_.score.high) +
                    "), from " + percent(a_.score.coverage) + " of the vehicle's weight inspected. Type, not part: a like-for-like replacement counts as built.");
  }

  void cautions() {
    page_.heading("Take care");
    for (std::size_t c : a_.cautions) page_.paragraph(t_.catalogue.cautions[c].name + ": " + t_.catalogue.cautions[c].text);
    page_.paragraph("Local codes and licensed practice come first; whether it may be used on the road is for the authority to decide.");
  }

  void legend() {
    page_.heading("How to read this");
    page_.paragraph("The figure beside a feature is the probability that it is now of the type with which this vehicle left the works, given everything observed and the pack. "
                    "Original: " + percent(a_.settings.original_from) + " or more; later change: " + percent(a_.settings.later_to) + " or less. Support is a likelihood ratio in the words of the scale usually given "
                    "as ENFSI 2015, capped at 'strong' because the rates of change are judgement (common practice, no source). Nothing here is proof of identity or of value.");
  }

  const Case& of_;
  const Tables& t_;
  const Inspection& in_;
  const Assessment& a_;
  Page page_;
  bool full_;
  Citations cited_;
};

}  // namespace

std::string text_report(const Case& of, bool colour, bool full) { return Reporter(of, colour, full).run(); }

std::string text_number(const Tables& tables, const NumberVerdict& number, bool colour) {
  Page page(colour);
  page.heading(tables.name);
  Reporter::write_number(page, tables, number, false);
  return page.text();
}

}  // namespace exworks
