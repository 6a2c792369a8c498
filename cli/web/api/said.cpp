#include <algorithm>

#include "base/text.hpp"
#include "assess/summary.hpp"
#include "words/numbers.hpp"
#include "words/reasons.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"
#include "web/api/words.hpp"

/// What an answer changed, in a mechanic's words.
namespace exworks::cli::web {

namespace {

/// When the works fitted this value, over all vehicles of the pack: the first and the last month of the builds that had it.
std::optional<DateSet> fitted(const Tables& t, FeatureIndex feature, ValueIndex value) {
  const FeatureInfo& f = t.features[feature];
  std::optional<DateSet> out;
  for (const RouteInfo& r : t.routes) {
    for (std::size_t i = 0; i < r.builds(); ++i) {
      const std::size_t build = r.first_build + i;
      const Column& column = f.columns[f.column_of[t.cell_of[build]]];
      if (t.prior[build] <= 0 || column.silent || !column.applies || column.share[value] < 0.01) continue;
      const Month m = r.first + static_cast<int>(i);
      if (!out) out = DateSet{m, m, m, 1};
      out->from = std::min(out->from, m);
      out->to = std::max(out->to, m);
    }
  }
  return out;
}

/// "doesn't belong before Oct 1962": where the value lies to the build that leads.
std::string out_of_place(const Tables& t, const Assessment& a, const FeatureVerdict& f) {
  const auto when = fitted(t, f.finding.feature, f.noted.front());
  if (!when) return "the works fitted this to none of the family";
  if (when->from > a.date.to) return "doesn't belong before " + to_words(when->from);
  if (when->to < a.date.from) return "doesn't belong after " + to_words(when->to);
  return "doesn't belong on this build";
}

std::string doubt(const FeatureVerdict& f) {
  if (f.reason.kind == ReasonKind::silent) return "the pack is silent on it for this build";
  if (f.reason.memory_alone) return "fits this build, but only memory speaks for it";
  if (f.reason.kind == ReasonKind::partly_silent) return "for some of the builds that remain the pack is silent on it";
  return "whether it is as built can't be told yet (" + percent(f.p) + ")";
}

std::string of_feature(const Tables& t, const Assessment& a, const FeatureVerdict& f) {
  if (f.verdict == VerdictKind::original) return "as this build left the works";
  if (f.verdict == VerdictKind::uncertain) return doubt(f);
  std::string out = f.noted_none_of_these(t) ? "not as this build left the works" : out_of_place(t, a, f);
  if (const NamedChange* change = named_change(t, f)) out += "; a known change: " + change->name;
  else if (const DonorDates* donor = f.donor()) out += "; likely from a donor of " + span_words(donor->from, donor->to);
  return out;
}

/// How the lead and the date window moved; "" when they stand.
std::string of_build(const Tables& t, const Assessment& now, const Assessment* before) {
  const Odds& lead = now.variants.front();
  const std::string name = t.axes.variants[lead.index].name, window = span_words(now.date);
  if (before == nullptr) return "most likely " + name + " (" + percent(lead.p) + "), built " + window;
  if (before->variants.front().index != lead.index) return "now most likely " + name + " (" + percent(lead.p) + "), built " + window;
  if (before->date.from != now.date.from || before->date.to != now.date.to) return "built " + window + " now, " + span_words(before->date) + " before";
  if (percent(before->variants.front().p) != percent(lead.p)) return name + " " + percent(lead.p) + " now, " + percent(before->variants.front().p) + " before; the dates stand";
  return "";
}

std::string of_number(const Tables& t, const Assessment& a, const std::string& id) {
  for (const NumberVerdict& n : a.numbers) {
    if (t.numbers[n.number].id != id) continue;
    if (n.agrees != Agreement::cannot_tell) return agreement_words(n);
    return n.window ? "by itself it says built " + span_words(*n.window) : "it can't be told whether it agrees";
  }
  return "";
}

std::string sentence(std::string text) { return upper_first(std::move(text)) + "."; }

/// Verdicts of other features that turned with this answer.
std::vector<std::string> turned(const Tables& t, const Assessment& now, const Assessment& before, const FeatureVerdict* but) {
  std::vector<std::string> out;
  for (const FeatureVerdict& f : now.features) {
    const FeatureVerdict* then = &f == but ? nullptr : verdict_on(before, f.finding.feature);
    if (then != nullptr && then->verdict != f.verdict && out.size() < 3) out.push_back(t.features[f.finding.feature].name + ": " + word(f.verdict) + " now, " + word(then->verdict) + " before.");
  }
  return out;
}

}  // namespace

std::vector<std::string> said(const State& s, const std::vector<std::pair<std::string, std::string>>& edited) {
  if (!s.assessment || edited.empty()) return {};
  const auto& [kind, name] = edited.back();
  const auto at = s.tables->feature_index.find(name);
  const FeatureVerdict* f = kind == "observed" && at != s.tables->feature_index.end() ? verdict_on(*s.assessment, at->second) : nullptr;
  const std::string own = f != nullptr ? of_feature(*s.tables, *s.assessment, *f) : kind == "number" ? of_number(*s.tables, *s.assessment, name) : "";
  const std::string build = of_build(*s.tables, *s.assessment, s.before.get());
  std::vector<std::string> out;
  if (!own.empty()) out.push_back(sentence(own));
  if (!build.empty()) out.push_back(sentence(build));
  if (out.empty()) out.push_back("The leading build and its dates stand.");
  // The first one stands alone on a small screen: both, where both are short.
  if (out.size() == 2 && out[0].size() + out[1].size() < 119) out = {out[0] + " " + out[1]};
  if (f != nullptr && f->verdict != VerdictKind::original) out.push_back(reason_words(*s.tables, *s.assessment, *f));
  if (s.before) {
    for (std::string& line : turned(*s.tables, *s.assessment, *s.before, f)) out.push_back(std::move(line));
  }
  return out;
}

}  // namespace exworks::cli::web
