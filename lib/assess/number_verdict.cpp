#include "assess/number_verdict.hpp"

#include <algorithm>

#include "engine/infer/identity.hpp"
#include "assess/marginals.hpp"
#include "words/evidence.hpp"
#include "words/scales.hpp"

namespace exworks {

namespace {

/// The months that the number allows, weighed by the prior: what it says when nothing else is known.
std::optional<DateSet> identity_window(const Tables& t, std::vector<double> match) {
  double sum = 0;
  for (std::size_t b = 0; b < match.size(); ++b) sum += match[b] *= t.prior[b];
  if (sum <= 0) return std::nullopt;
  Month first;
  const std::vector<double> odds = month_odds(t, match, &first);
  return shortest_window(odds, first, 0.9);
}

std::optional<DateSet> window_alone(const Tables& t, const NumberRead& read, const IdentityLikelihood* says) {
  const NumberInfo& info = t.numbers[read.number];
  if (info.identity) return identity_window(t, says != nullptr ? says->match : identity_likelihood(t, read).match);
  const FormReading& best = read.readings.front();
  if (!best.serial) return std::nullopt;
  const auto windows = serial_windows(info, best.form, *best.serial, {});
  if (windows.empty()) return std::nullopt;
  DateSet d{windows.front().first, windows.front().last, windows.front().first, 0.9};
  for (const SerialWindow& w : windows) {
    d.from = std::min(d.from, w.first);
    d.to = std::max(d.to, w.last);
  }
  return d;
}

std::string no_window_note(const NumberInfo& info, const FormReading& best) {
  if (!best.serial || info.ranges.empty()) return {};
  const bool any = std::any_of(info.ranges.begin(), info.ranges.end(), [&](const RangeInfo& r) { return *best.serial >= r.first && *best.serial <= r.last; });
  if (!any) return "The serial " + std::to_string(*best.serial) + " lies in none of the pack's ranges.";
  const bool form = std::any_of(info.ranges.begin(), info.ranges.end(),
                                [&](const RangeInfo& r) { return r.forms.empty() || std::find(r.forms.begin(), r.forms.end(), best.form) != r.forms.end(); });
  if (!form) return "The pack has no ranges for numbers of this form.";
  return "The serial lies in a range, but in none for the vehicles that the other parts allow.";
}

/// A listed later change that leaves this value behind.
const ChangeInfo* change_behind(const Tables& t, std::size_t feature, std::size_t value) {
  for (const ChangeInfo& c : t.changes) {
    if (std::find(c.sets.begin(), c.sets.end(), std::pair{feature, value}) != c.sets.end()) return &c;
  }
  return nullptr;
}

}  // namespace

NumberVerdict describe_number(const Tables& t, const NumberRead& read, const IdentityLikelihood* says) {
  const NumberInfo& info = t.numbers[read.number];
  NumberVerdict out;
  out.number = read.number;
  out.id = info.id;
  out.name = info.name;
  out.text = read.text;
  out.where = info.where;
  out.agrees = "cannot-tell";
  if (read.readings.empty()) {
    out.note = unread_words(t, read);
    return out;
  }
  const FormReading& best = read.readings.front();
  const FormInfo& form = info.forms[best.form];
  out.form = form.grammar.name;
  out.slips = best.slips;
  for (const PartReading& part : best.parts) {
    const NumberPart& p = form.grammar.parts[part.part];
    if (p.kind == NumberPart::Kind::literal) continue;
    const std::string means = part.code ? p.codes[*part.code].means : "";
    if (part.text.empty() && means.empty()) continue;
    out.parts.push_back({p.name, part.text, means});
  }
  out.window = window_alone(t, read, says);
  if (!out.window) out.note = no_window_note(info, best);
  return out;
}

NumberVerdict judge_number(const VerdictInputs& j, const NumberRead& read) {
  const bool identity = j.evidence.identity && &j.evidence.numbers[*j.evidence.identity] == &read;
  NumberVerdict out = describe_number(j.tables, read, identity ? j.evidence.identity_says.get() : nullptr);
  const NumberInfo& info = j.tables.numbers[read.number];
  if (read.readings.empty()) return out;
  if (info.identity && j.posterior.own_number) {
    out.p_own = *j.posterior.own_number;
    out.agrees = out.p_own >= 0.9 ? "yes" : out.p_own <= 0.1 ? "no" : "cannot-tell";
    if (out.agrees == "no") {
      out.note = "The number is not consistent with the rest of the vehicle. A miswritten figure, a replaced plate, a number issued by the registering authority or a "
                 "body from another vehicle would each explain it. Ask the registering authority or the maker's archive, with the papers, before money changes hands.";
    } else if (out.agrees == "cannot-tell") {
      out.note = "Whether the number is this vehicle's own can't be told from what was seen.";
    }
    return out;
  }
  // A number of an assembly agrees when what it says of its features fits the build.
  double worst = 1;
  bool any = false;
  const ChangeInfo* known_change = nullptr;
  for (const FeatureFinding& f : j.findings) {
    const Seen& seen = j.evidence.seen[f.seen];
    if (seen.number != read.number || f.p_silent > 0.5) continue;
    any = true;
    if (f.p_type <= 0.1) known_change = change_behind(j.tables, f.feature, seen.value);
    worst = std::min(worst, f.p_type);
  }
  if (any && worst <= 0.1) {
    out.agrees = "no";
    out.note = known_change != nullptr ? "Not the number of a part fitted when new; a known change explains it: " + known_change->name + "."
                                       : "Not consistent with this build as it left the works; the part may have been replaced.";
  } else if (any && worst >= 0.9) {
    out.agrees = "yes";
  }
  return out;
}

}  // namespace exworks
