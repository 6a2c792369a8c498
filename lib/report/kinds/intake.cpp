
#include "base/text.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/kinds/parts.hpp"
#include "report/render/svg.hpp"
#include "words/english/english.hpp"
#include "words/numbers.hpp"
#include "words/reasons.hpp"
#include "words/remarks.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

using namespace parts;

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

const Observation* observation(const Inspection& in, const std::string& id) {
  for (const Observation& o : in.observations) {
    if (o.feature == id) return &o;
  }
  return nullptr;
}

void identity(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  d.heading(2, "Identity");
  d.paragraph("Most likely " + with_article(build_words(in.tables, a)) + " (variant " + odds_words(a.variants.front().p) + ", dates " + percent(a.date.level) + ").");
  Table table{"Numbers as read", {"Number", "As read", "Against the rest of the vehicle"}, {}, false};
  for (const NumberVerdict& n : a.numbers) {
    table.rows.push_back({plain(in.tables.numbers[n.number].name), plain(n.text), {agreement_words(n), {}, agreement_mark(n), false, false}});
  }
  if (table.rows.empty()) d.paragraph("No number was read.");
  else d.blocks.push_back(std::move(table));
}

/// Everything that was noted, place by place, as the record of the state on arrival.
void state_on_arrival(Report& d, const ReportInput& in, Region region) {
  d.heading(2, "State on arrival");
  d.paragraph(counts_words(in.assessment));
  for (std::size_t place = 0; place < in.tables.catalogue.places.size(); ++place) {
    Table table{in.tables.catalogue.places[place].name, {"Feature", "Found", "Noted"}, {}, false, true};
    for (const FeatureVerdict& f : in.assessment.features) {
      if (in.tables.features[f.finding.feature].place != place) continue;
      const Observation* o = observation(in.inspection, in.tables.features[f.finding.feature].id);
      std::string found = observed_words(in.tables, f);
      if (o != nullptr && o->measure) found += "; measured " + measure_words(*o->measure, o->unit, region);
      if (o != nullptr && o->wear) found += o->wear == Wear::consistent ? "; worn like the rest" : "; looks " + word(o->wear) + " than the rest";
      table.rows.push_back({{in.tables.features[f.finding.feature].name, {}, verdict_mark(f.verdict), false, false}, plain(found), plain(noted_words(in, f))});
    }
    if (!table.rows.empty()) d.blocks.push_back(std::move(table));
  }
  d.blocks.push_back(figure_plan(in.tables, in.assessment));
}

/// What must not be worked over: what is as built, with the signs of age that show it.
void keep(Report& d, const ReportInput& in) {
  Bullets shown, type;
  for (const FeatureVerdict& f : in.assessment.features) {
    if (f.verdict != VerdictKind::original) continue;
    const Observation* o = observation(in.inspection, in.tables.features[f.finding.feature].id);
    const bool aged = o != nullptr && (o->wear == Wear::consistent || o->wear == Wear::older);
    if (aged || !type_only(f)) shown.items.push_back({feature_words(in.tables, f) + " — " + part_words(f), f.reason.sources, Mark::original, false, false});
    else type.items.push_back({feature_words(in.tables, f), {}, Mark::original, false, false});
  }
  if (shown.items.empty() && type.items.empty()) return;
  d.heading(2, "As built: to be kept");
  d.paragraph("Patina and old repairs are part of the record. Note them; do not correct them. Nothing on this list is cleaned back, refinished or replaced without the owner's word in writing; whatever comes off is labelled and kept with the vehicle.");
  if (!shown.items.empty()) {
    d.heading(3, "With evidence of the very part");
    d.blocks.push_back(std::move(shown));
  }
  if (!type.items.empty()) {
    d.heading(3, "Of the right type");
    d.blocks.push_back(std::move(type));
  }
}

void reversible(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  Table table{"", {"Later change", "Comes off again?", "Hours to put back"}, {}, true};
  for (const auto& group : change_groups(in.tables, a)) {
    const FeatureVerdict& f = a.features[group.front()];
    const std::string hours = f.hours > 0 ? hours_words(f.hours) : "not known";
    table.rows.push_back({{group_name(in.tables, a, group), {}, Mark::later, false, false}, plain(f.reversible == Reversible::unknown ? "not known" : word(f.reversible)), plain(hours)});
  }
  d.heading(2, "Later changes, and whether they come off again");
  if (table.rows.empty()) d.paragraph("None was observed.");
  else d.blocks.push_back(std::move(table));
}

void questions(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  Bullets list{{}, true};
  for (const auto& group : change_groups(in.tables, a)) list.items.push_back(plain(group_name(in.tables, a, group) + ": when was it done, by whom, and where is what came off?"));
  for (std::size_t o : a.missing) list.items.push_back(plain(in.tables.feature_name(in.inspection.observations[o].feature) + ": missing on arrival. Is it in a box somewhere?"));
  for (const NumberVerdict& n : a.numbers) {
    if (n.agrees == Agreement::no) list.items.push_back(plain(in.tables.numbers[n.number].name + " " + n.text + " is not consistent with the rest: which papers tell of it?"));
  }
  if (a.documents.empty()) list.items.push_back(plain("Which papers belong to the vehicle: registration, invoices, letters, photographs?"));
  list.items.push_back(plain("What is wanted: to keep it as it is, to use it, or to take it back to a certain day?"));
  list.items.push_back(plain("Whose is it, and is it insured while it is here?"));
  d.heading(2, "Questions for the owner");
  d.blocks.push_back(std::move(list));
}

}  // namespace

Report intake_report(const ReportInput& in, const ReportOptions& options) {
  Report d = blank_report(in, options, "Intake report");
  d.blocks.push_back(Blanks{{"Entry number", "Owner, and how to reach the owner", "Received by, date and time", "Reason for the visit, and the owner's wishes", "Agreed return date; insurance; where it stands"}});
  identity(d, in);
  state_on_arrival(d, in, options.region);
  codes_section(d, in);
  not_judged_section(d, in);
  keep(d, in);
  reversible(d, in);
  questions(d, in);
  schemes_section(d, in, true);
  photos_section(d, in, options.region);
  record_section(d, in, options.region);
  d.heading(2, "Signatures");
  d.paragraph("The state described above was found together. A copy goes to the owner as a receipt.");
  d.blocks.push_back(Blanks{{"Owner: name, signature, date", "Workshop: name, signature, date"}});
  cautions_section(d, in);
  closing(d, in, options);
  return d;
}

}  // namespace exworks
