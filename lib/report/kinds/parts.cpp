#include "report/kinds/parts.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "report/render/svg.hpp"
#include "words/claims.hpp"
#include "words/codes.hpp"
#include "words/english/english.hpp"
#include "words/numbers.hpp"
#include "words/readings.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks::parts {

namespace {

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }
Text quiet(std::string words) { return {std::move(words), {}, Mark::none, false, true}; }

void add_hinges(const ReportInput& in, const FeatureVerdict& f, std::vector<Text>& lines) {
  if (!f.hinges_on.empty()) lines.push_back(quiet("Hangs on: " + names_of(in.tables, f.hinges_on) + "."));
}

void add_note(const ReportInput& in, const FeatureVerdict& f, std::vector<Text>& lines) {
  const std::string noted = noted_words(in, f);
  if (!noted.empty()) lines.push_back(quiet("Noted: " + noted));
}

}  // namespace

Mark agreement_mark(const NumberVerdict& n) { return n.agrees == Agreement::yes ? Mark::original : n.agrees == Agreement::no ? Mark::later : Mark::uncertain; }

void build_section(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  d.heading(2, "Which build it is");
  d.paragraph("Most likely " + with_article(build_words(in.tables, a)) + ". Odds of the variant: " + odds_words(a.variants.front().p) + "; of these dates: " + percent(a.date.level) + "; most likely month " + to_words(a.date.most_likely) + ".");
  if (!a.hinges_on.empty()) {
    d.paragraph("The variant hangs on " + names_of(in.tables, a.hinges_on) + ": without it another variant leads.");
  }
  d.blocks.push_back(figure_dates(in.tables, a));
  d.blocks.push_back(figure_odds(in.tables, a));
  const Periods periods = works_periods(in.tables, a);
  Table table{"When the works fitted what was seen, on vehicles of this body and market", {"Feature", "Seen", "Fitted by the works", "Verdict"}, {}, false};
  for (const Period& p : chosen_periods(a, periods)) {
    const FeatureVerdict& f = a.features[p.feature];
    table.rows.push_back({plain(in.tables.features[f.finding.feature].name), plain(observed_words(in.tables, f)), plain(period_text(periods, p)), {word(f.verdict), {}, verdict_mark(f.verdict), false, false}});
  }
  if (!table.rows.empty()) d.blocks.push_back(std::move(table));
  d.paragraph("Fit: " + fit_words(a));
  for (const Remark& remark : a.remarks) d.paragraph(remark_words(in.inspection, remark));
}

void claims_section(Report& d, const ReportInput& in) {
  if (in.assessment.claims.empty()) return;
  d.heading(2, "What was claimed, point by point");
  for (const ClaimVerdict& c : in.assessment.claims) {
    const Claim& claim = in.inspection.claims[c.claim];
    Table table{"Claimed" + (claim.by.empty() ? std::string() : " by " + claim.by), {"Claim", "What the observations show", "Before looking", "Now"}, {}, true};
    for (const ClaimPoint& p : c.points) table.rows.push_back({plain(point_words(in.tables, claim, p.of)), plain(found_words(in.tables, in.assessment, p.of)), plain(percent(p.p_before)), plain(odds_words(p.p))});
    d.blocks.push_back(std::move(table));
    d.paragraph(support_words(in.assessment, c));
    if (!claim.note.empty()) d.paragraph("In the words of the claim: " + claim.note, true);
  }
  d.paragraph("The figures are the odds of the claim given everything observed. They are not the odds of the observations if the claim were true.", true);
}

void numbers_section(Report& d, const ReportInput& in) {
  const Tables& t = in.tables;
  if (in.assessment.numbers.empty()) return;
  d.heading(2, "Numbers, as read");
  for (const NumberVerdict& n : in.assessment.numbers) {
    Finding finding{t.numbers[n.number].name + " " + n.text, agreement_words(n), agreement_mark(n), {}};
    const std::string parts = parts_in_a_row(t, n), form = form_name(t, n);
    if (!form.empty()) finding.lines.push_back(plain(form + (parts.empty() ? "" : "; ") + parts + "."));
    for (const std::string& s : slips_of(n)) finding.lines.push_back(quiet("Forgiven in reading: " + s));
    if (n.window) finding.lines.push_back(plain("By the number alone: built " + span_words(*n.window) + "."));
    if (n.p_own) finding.lines.push_back(plain("Odds that it is this vehicle's own: " + odds_words(*n.p_own) + "."));
    const std::string note = number_note(t, n);
    if (!note.empty()) finding.lines.push_back(plain(note));
    if (n.agrees == Agreement::no && n.p_own) finding.lines.push_back(plain("Ask the registering authority and the maker's archive; where theft is suspected, the police."));
    d.blocks.push_back(std::move(finding));
  }
}

void codes_section(Report& d, const ReportInput& in) {
  if (in.assessment.codes.empty()) return;
  Table table{"", {"Part and code", "Could mean", "Against the build"}, {}, false};
  for (const CodeVerdict& c : in.assessment.codes) {
    const DateCode& code = in.inspection.codes[c.code];
    const std::string part = code.feature.empty() ? code.kind : in.tables.feature_name(code.feature), remark = code_remark(c);
    std::string dates = join_and(code_dates(c));
    if (!remark.empty()) dates += (dates.empty() ? "" : ". ") + remark;
    table.rows.push_back({plain(upper_first(part) + (code.text.empty() ? "" : ": " + code.text) + (code.note.empty() ? "" : " (" + code.note + ")")), plain(dates), plain(timing_words(c))});
  }
  d.heading(2, "Date codes on parts");
  d.blocks.push_back(std::move(table));
}

void papers_section(Report& d, const ReportInput& in) {
  if (in.assessment.documents.empty()) return;
  Table table{"", {"Paper", "Odds that it is right of this vehicle"}, {}, true};
  for (const DocumentVerdict& p : in.assessment.documents) table.rows.push_back({plain(upper_first(paper_words(in.inspection, p.paper))), plain(odds_words(p.p_right))});
  d.heading(2, "Papers");
  d.blocks.push_back(std::move(table));
}

void readings_section(Report& d, const ReportInput& in) {
  if (in.assessment.readings.empty()) return;
  d.heading(2, "The same observations, taken as given");
  for (const Reading& r : in.assessment.readings) {
    Finding finding{taken_words(in, r), percent(r.p), Mark::none, {}};
    if (!r.possible) {
      finding.lines.push_back(plain("No build of this pack allows it."));
    } else {
      finding.lines.push_back(plain("It is " + build_words(in.tables, r) + "."));
      finding.lines.push_back(plain(later_words(in.tables, r)));
    }
    d.blocks.push_back(std::move(finding));
  }
  d.paragraph("The figure is the odds of the condition itself, given everything observed. The choice between readings is the reader's.", true);
}

void later_section(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  const auto groups = change_groups(in.tables, a);
  d.heading(2, "Later changes");
  if (groups.empty()) d.paragraph("None of the features observed is a later change.");
  for (const auto& group : groups) {
    const FeatureVerdict& f = a.features[group.front()];
    Finding finding{group_name(in.tables, a, group), percent(f.p) + " as built", Mark::later, {}};
    finding.lines.push_back({reason_words(in.tables, in.assessment, f), f.reason.sources, Mark::none, false, false});
    if (group.size() > 1) {
      std::vector<std::string> names;
      for (std::size_t i : group) names.push_back(in.tables.features[a.features[i].finding.feature].name + " (" + observed_words(in.tables, a.features[i]) + ")");
      finding.lines.push_back(plain("Seen in: " + join_and(names) + "."));
    }
    const std::string back = going_back(f);
    if (!back.empty()) finding.lines.push_back({back, {}, Mark::none, true, false});
    if (const DonorDates* donor = f.donor()) finding.lines.push_back(plain("A vehicle of " + span_words(donor->from, donor->to) + " could have given it."));
    if (const NamedChange* change = named_change(in.tables, f); change != nullptr && !change->spot.empty()) finding.lines.push_back(plain("How to tell: " + change->spot));
    finding.lines.push_back(quiet(strength_sentence(f)));
    add_hinges(in, f, finding.lines);
    for (std::size_t i : group) add_note(in, a.features[i], finding.lines);
    d.blocks.push_back(std::move(finding));
  }
}

void uncertain_section(Report& d, const ReportInput& in) {
  bool begun = false;
  for (const FeatureVerdict& f : in.assessment.features) {
    if (f.verdict != VerdictKind::uncertain) continue;
    if (!begun) d.heading(2, "Uncertain");
    begun = true;
    Finding finding{feature_words(in.tables, f), f.finding.silent() ? "the pack is silent" : doubt_words(f) + " as built", Mark::uncertain, {}};
    finding.lines.push_back({reason_words(in.tables, in.assessment, f), f.reason.sources, Mark::none, false, false});
    if (!f.finding.silent()) finding.lines.push_back(quiet(strength_sentence(f)));
    add_note(in, f, finding.lines);
    d.blocks.push_back(std::move(finding));
  }
}

void original_section(Report& d, const ReportInput& in, Region region) {
  Table table{"", {"Feature", "Seen", "What is shown of the part itself", "As built"}, {}, true};
  bool plain_part = false;
  for (const FeatureVerdict& f : in.assessment.features) {
    if (f.verdict != VerdictKind::original) continue;
    const Observation* o = nullptr;
    for (const Observation& each : in.inspection.observations) o = each.feature == in.tables.features[f.finding.feature].id ? &each : o;
    std::string seen = observed_words(in.tables, f);
    if (o != nullptr && o->measure) seen += "; measured " + measure_words(*o->measure, o->unit, region);
    const bool usual = type_only(f);
    plain_part = plain_part || usual;
    table.rows.push_back({{in.tables.features[f.finding.feature].name, {}, Mark::original, false, false}, plain(seen), plain(usual ? "type only" : part_words(f)), {percent(f.p), f.reason.sources, Mark::none, false, false}});
  }
  if (table.rows.empty()) return;
  d.heading(2, "Of the type fitted when new");
  d.blocks.push_back(std::move(table));
  if (plain_part) d.paragraph("“Type only”: right type; not shown to be the part fitted when new.", true);
}

void not_judged_section(Report& d, const ReportInput& in) {
  const auto names = [&](const std::vector<std::size_t>& observations) {
    Bullets out;
    for (std::size_t i : observations) {
      const Observation& o = in.inspection.observations[i];
      out.items.push_back(plain(in.tables.feature_name(o.feature) + (o.note.empty() ? "" : ": " + o.note)));
    }
    return out;
  };
  if (in.assessment.missing.empty() && in.assessment.cannot_tell.empty()) return;
  d.heading(2, "Not judged");
  if (!in.assessment.missing.empty()) {
    d.heading(3, "Missing");
    d.blocks.push_back(names(in.assessment.missing));
  }
  if (!in.assessment.cannot_tell.empty()) {
    d.heading(3, "Looked at, but it could not be told");
    d.blocks.push_back(names(in.assessment.cannot_tell));
  }
}

void next_section(Report& d, const ReportInput& in) {
  d.heading(2, "What to look at next");
  if (in.next.checks.empty()) {
    d.paragraph("Nothing that is still unseen can be expected to change the answer.");
    return;
  }
  Table table{"Still unseen, by what a look can tell", {"Feature", "Question", "Minutes"}, {}, true};
  for (const Check& c : in.next.checks) {
    const FeatureInfo& f = in.tables.features[c.feature];
    table.rows.push_back({plain(f.name), plain(f.ask), plain(trimmed(c.minutes, 1))});
  }
  d.blocks.push_back(std::move(table));
}

void score_section(Report& d, const ReportInput& in) {
  d.heading(2, "How much of it is as built, and where");
  if (in.assessment.score.weight == 0) d.paragraph("Nothing that was observed can be scored.");
  else d.blocks.push_back(figure_score(in.assessment));
  d.blocks.push_back(figure_plan(in.tables, in.assessment));
}

void cautions_section(Report& d, const ReportInput& in) {
  if (in.assessment.cautions.empty()) return;
  d.heading(2, "Take care");
  Bullets list;
  for (std::size_t c : in.assessment.cautions) list.items.push_back({in.tables.catalogue.cautions[c].name + ": " + in.tables.catalogue.cautions[c].text, in.tables.catalogue.cautions[c].sources, Mark::none, false, false});
  d.blocks.push_back(std::move(list));
  d.paragraph("Local codes and licensed practice come first; whether it may be used on the road is for the authority to decide.");
}

}  // namespace exworks::parts
