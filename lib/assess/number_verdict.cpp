#include "assess/number_verdict.hpp"

#include <algorithm>

#include "engine/evidence/identity.hpp"

namespace exworks {

namespace {

/// The months that the number allows, weighed by the prior: what it says when nothing else is known.
std::optional<DateSet> identity_window(const Tables& t, std::vector<double> match, double level) {
  double sum = 0;
  for (std::size_t b = 0; b < match.size(); ++b) sum += match[b] *= t.prior[b];
  if (sum <= 0) return std::nullopt;
  Month first;
  const std::vector<double> odds = month_odds(t, match, &first);
  return shortest_window(odds, first, level);
}

std::optional<DateSet> window_alone(const Tables& t, const NumberRead& read, double level, const IdentityLikelihood* says) {
  const NumberInfo& info = t.numbers[read.number];
  const FormReading& best = read.readings.front();
  if (info.identity) {
    const IdentityLikelihood own = says != nullptr ? *says : identity_likelihood(t, read);
    const auto of_form = [&](const RangeInfo& r) { return r.forms.empty() || std::find(r.forms.begin(), r.forms.end(), best.form) != r.forms.end(); };
    if (best.serial && !own.placed && std::any_of(info.ranges.begin(), info.ranges.end(), of_form)) return std::nullopt;
    return identity_window(t, own.match, level);
  }
  if (!best.serial) return std::nullopt;
  const auto windows = serial_windows(info, best.form, {*best.serial, best.serial_to}, {});
  if (windows.empty()) return std::nullopt;
  DateSet d{windows.front().first, windows.front().last, windows.front().first, level};
  for (const SerialWindow& w : windows) {
    d.from = std::min(d.from, w.first);
    d.to = std::max(d.to, w.last);
  }
  return d;
}

std::optional<NoWindow> why_no_window(const NumberInfo& info, const FormReading& best) {
  if (!best.serial || info.ranges.empty()) return std::nullopt;
  const auto holds = [&](const RangeInfo& r) { return best.serial_to >= r.first && *best.serial <= r.last; };
  const auto of_form = [&](const RangeInfo& r) { return r.forms.empty() || std::find(r.forms.begin(), r.forms.end(), best.form) != r.forms.end(); };
  if (std::none_of(info.ranges.begin(), info.ranges.end(), holds)) return NoWindow::outside_all_ranges;
  if (std::none_of(info.ranges.begin(), info.ranges.end(), of_form)) return NoWindow::no_ranges_of_this_form;
  return NoWindow::of_other_vehicles;
}

Agreement agreement(double p, const Settings& settings) {
  return p >= settings.original_from ? Agreement::yes : p <= settings.later_to ? Agreement::no : Agreement::cannot_tell;
}

/// P(the vehicle is of the scope | everything)
double odds_within(const VerdictInputs& in, const RouteSet& scope) {
  double p = 0;
  for (std::size_t r = 0; r < scope.size(); ++r) {
    if (!scope[r]) continue;
    const RouteInfo& route = in.tables.routes[r];
    for (std::size_t i = 0; i < route.builds(); ++i) p += in.posterior.build[route.first_build + i];
  }
  return p;
}

bool sets_value(const ChangeInfo& change, const Seen& seen) { return std::find(change.sets.begin(), change.sets.end(), FeatureValue{seen.feature, seen.value}) != change.sets.end(); }

bool sets_value(const ConversionInfo& conversion, const Seen& seen) {
  return std::any_of(conversion.sets.begin(), conversion.sets.end(), [&](const auto& s) { return s.feature == seen.feature && s.value == seen.value; });
}

/// Of the listed changes those that leave this value behind, are known on such vehicles and were possible by the inspection: the one that is known on most
/// of the builds that remain.
template <class Changes>
std::optional<std::size_t> change_behind(const VerdictInputs& in, const Changes& changes, const Seen& seen) {
  std::optional<std::size_t> best;
  double most = 0.5;  // on builds less likely than not, it explains nothing
  for (std::size_t c = 0; c < changes.size(); ++c) {
    const NamedChange& change = changes[c];
    if (!sets_value(changes[c], seen)) continue;
    if (change.from && in.evidence.inspected && share_after(*change.from, *in.evidence.inspected) <= 0) continue;
    const double p = odds_within(in, change.scope);
    if (p <= most) continue;
    most = p;
    best = c;
  }
  return best;
}

/// A number of an assembly agrees when what it says of its features fits the build. What disagrees most is explained first.
void judge_by_features(const VerdictInputs& in, std::size_t number, NumberVerdict& out) {
  std::vector<const FeatureFinding*> said;
  for (const FeatureFinding& f : in.findings) {
    if (in.evidence.seen[f.seen].number == number && !f.silent()) said.push_back(&f);
  }
  if (said.empty()) return;
  std::stable_sort(said.begin(), said.end(), [](const FeatureFinding* a, const FeatureFinding* b) { return a->type_where_spoken() < b->type_where_spoken(); });
  out.agrees = agreement(said.front()->type_where_spoken(), in.settings);
  for (const FeatureFinding* f : said) {
    if (agreement(f->type_where_spoken(), in.settings) != Agreement::no || out.known_change || out.known_conversion) continue;
    const Seen& seen = in.evidence.seen[f->seen];
    out.known_conversion = change_behind(in, in.tables.conversions, seen);
    if (!out.known_conversion) out.known_change = change_behind(in, in.tables.changes, seen);
  }
}

}  // namespace

NumberVerdict describe_number(const Tables& t, const NumberRead& read, double level, const IdentityLikelihood* says) {
  NumberVerdict out;
  out.number = read.number;
  out.text = read.text;
  out.state = read.state;
  if (read.readings.empty()) {
    out.unread = read.unread;
    return out;
  }
  out.reading = read.readings.front();
  out.window = window_alone(t, read, level, says);
  if (!out.window) out.no_window = why_no_window(t.numbers[read.number], *out.reading);
  return out;
}

NumberVerdict judge_number(const VerdictInputs& in, const NumberRead& read) {
  const bool identity = in.evidence.identity && &in.evidence.numbers[*in.evidence.identity] == &read;
  NumberVerdict out = describe_number(in.tables, read, in.settings.level, identity ? in.evidence.identity_says.get() : nullptr);
  if (!out.reading) return out;
  if (in.tables.numbers[read.number].identity && in.posterior.own_number) {
    out.p_own = *in.posterior.own_number;
    out.agrees = agreement(*out.p_own, in.settings);
  } else {
    judge_by_features(in, read.number, out);
  }
  return out;
}

}  // namespace exworks
