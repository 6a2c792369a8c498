#include <algorithm>

#include "base/text.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/kinds/parts.hpp"
#include "report/render/svg.hpp"
#include "words/english/english.hpp"
#include "words/reasons.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

using namespace parts;

constexpr double uncommon = 0.35;  ///< a works share up to this is worth telling

Text plain(std::string words) { return {std::move(words), {}, Mark::none, false, false}; }

void story(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  d.heading(2, "Its story");
  std::string words = "This is most likely " + with_article(in.tables.axes.variants[a.variants.front().index].name) + " (" + odds_words(a.variants.front().p) + "). It left the works at " +
                      in.tables.axes.plants[a.plants.front().index].name + " between " + to_words(a.date.from) + " and " + to_words(a.date.to) + ", most likely in " + to_words(a.date.most_likely) + ", for: " +
                      in.tables.axes.markets[a.markets.front().index].name + ".";
  if (a.date.from == a.date.to) words = "This is most likely " + with_article(in.tables.axes.variants[a.variants.front().index].name) + " (" + odds_words(a.variants.front().p) + "), built in " + to_words(a.date.from) + ".";
  d.paragraph(words);
  d.paragraph(counts_words(a));
  const auto groups = change_groups(in.tables, a);
  if (groups.empty()) {
    d.paragraph("Nothing that was looked at was changed since, as far as type can show it.");
  } else {
    std::vector<std::string> names;
    for (const auto& g : groups) names.push_back(group_name(in.tables, a, g));
    d.paragraph("Since then it was changed: " + join_and(names) + ".");
  }
  if (!in.inspection.note.empty()) d.paragraph("Told at the inspection: " + in.inspection.note, true);
}

struct Event {
  Month month;
  std::string when, what, known;
};

/// What is documented, what is inferred from the vehicle and what is only possible are never mixed.
void timeline(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  std::vector<Event> events{{a.date.from, span_words(a.date.from, a.date.to), "Built", "inferred from the vehicle and its papers"}};
  for (const Document& paper : in.inspection.documents) {
    const auto& date = paper.date ? paper.date : paper.built;
    if (date && !date->open) events.push_back({date->first, to_words(*date), upper_first(word(paper.kind)) + (paper.note.empty() ? "" : ": " + paper.note), "documented"});
  }
  for (const auto& group : change_groups(in.tables, a)) {
    const FeatureVerdict& f = a.features[group.front()];
    const std::string name = group_name(in.tables, a, group);
    const NamedChange* change = named_change(in.tables, f);
    if (change != nullptr && change->from && !change->from->open) {
      const Edge& from = *change->from;
      const Month start = std::max(from.first, a.date.from);
      events.push_back({start, "not before " + to_words(start), name, "possible from then on"});
    } else if (const DonorDates* donor = f.donor()) {
      events.push_back({donor->from, "not before " + to_words(donor->from), name, "the part is of " + span_words(donor->from, donor->to)});
    } else {
      events.push_back({a.date.to + 1, "after it was built", name, "the date is not known"});
    }
  }
  if (a.inspected) events.push_back({*a.inspected, to_words(*a.inspected), "Inspected", "documented"});
  std::stable_sort(events.begin(), events.end(), [](const Event& x, const Event& y) { return x.month < y.month; });
  Table table{"", {"When", "What", "How it is known"}, {}, false};
  for (const Event& e : events) table.rows.push_back({plain(e.when), plain(e.what), plain(e.known)});
  d.heading(2, "Timeline");
  d.blocks.push_back(std::move(table));
}

void special(Report& d, const ReportInput& in) {
  Bullets list;
  for (const FeatureVerdict& f : in.assessment.features) {
    if (f.verdict != VerdictKind::original) continue;
    const double share = f.works_share();
    const bool listed = !f.noted_none_of_these(in.tables);
    if (listed && share <= uncommon && share > 0) {
      list.items.push_back({feature_words(in.tables, f) + ". Of the vehicles built like this one, " + percent(share) + " left the works with it.", f.reason.sources, Mark::original, false, false});
    }
    if (!type_only(f)) list.items.push_back({feature_words(in.tables, f) + " — " + part_words(f) + ".", f.reason.sources, Mark::original, false, false});
  }
  d.heading(2, "What is special about it");
  if (list.items.empty()) d.paragraph("Nothing that was looked at is uncommon among vehicles of its build, and no part carries evidence of its own that it is the very one.");
  else d.blocks.push_back(std::move(list));
}

void changed(Report& d, const ReportInput& in) {
  const Assessment& a = in.assessment;
  const auto groups = change_groups(in.tables, a);
  if (groups.empty()) return;
  Table table{"", {"What was changed", "What the works had fitted", "Comes off again?", "Hours to go back"}, {}, true};
  for (const auto& group : groups) {
    const FeatureVerdict& f = a.features[group.front()];
    const auto best = std::max_element(f.finding.works.begin(), f.finding.works.end());
    const std::string had = best == f.finding.works.end() ? "" : in.tables.value_name(f.finding.feature, ValueIndex(static_cast<std::size_t>(best - f.finding.works.begin())));
    table.rows.push_back({{group_name(in.tables, a, group), f.reason.sources, Mark::later, false, false}, plain(in.tables.features[f.finding.feature].name + ": " + had), plain(f.reversible == Reversible::unknown ? "not known" : word(f.reversible)), plain(f.hours > 0 ? hours_words(f.hours) : "not known")});
  }
  const GoingBack back = hours_to_go_back(a, groups);
  d.heading(2, "What was changed, and what going back would take");
  d.blocks.push_back(std::move(table));
  d.paragraph("In all " + std::string(back.all_known ? "about " : "at least ") + hours_words(back.hours) + " of work. Going back is a choice, not a duty: a change of its time is part of the vehicle's history, and what comes off is kept with it.");
}

}  // namespace

Report owner_report(const ReportInput& in, const ReportOptions& options) {
  Report d = blank_report(in, options, "Owner's report");
  story(d, in);
  timeline(d, in);
  special(d, in);
  changed(d, in);
  build_section(d, in);
  score_section(d, in);
  numbers_section(d, in);
  codes_section(d, in);
  papers_section(d, in);
  schemes_section(d, in, false);
  photos_section(d, in, options.region);
  record_section(d, in, options.region);
  valuation_section(d, in, options.region);
  cautions_section(d, in);
  closing(d, in, options);
  return d;
}

}  // namespace exworks
