#include "engine/evidence/identity.hpp"

#include <algorithm>
#include <cmath>

namespace exworks {

namespace {

constexpr double slip_cost = 0.1;  // judgement: a reading that needs a slip forgiven is a tenth as likely as one that doesn't

bool form_allowed(const RangeInfo& range, std::size_t form) {
  return range.forms.empty() || std::find(range.forms.begin(), range.forms.end(), form) != range.forms.end();
}

struct Span {  // in months, as real numbers; a month m is [m, m+1)
  double from, to;
};

Span issue_span(const RangeInfo& range) { return {static_cast<double>(range.from.first.index), static_cast<double>(range.to.last.index) + 1.0}; }

double overlap(Span a, Span b) { return std::max(0.0, std::min(a.to, b.to) - std::max(a.from, b.from)); }

/// Where in time a serial was issued, as a span `spread` months either side of the even point.
Span serial_span(const RangeInfo& range, std::int64_t serial) {
  const Span issue = issue_span(range);
  const double position = (static_cast<double>(serial - range.first) + 0.5) / static_cast<double>(range.last - range.first + 1);
  const double at = issue.from + position * (issue.to - issue.from);
  const double reach = std::max(0.5, static_cast<double>(range.spread));
  return {std::max(issue.from, at - reach), std::min(issue.to, at + reach)};
}

/// Count of the range's numbers whose span meets month `m`.
double numbers_in_month(const RangeInfo& range, Month m) {
  const Span issue = issue_span(range);
  const double size = static_cast<double>(range.last - range.first + 1);
  const double month = m.index;
  const double reach = std::max(0.5, static_cast<double>(range.spread));
  return size * overlap(issue, {month - reach, month + 1.0 + reach}) / (issue.to - issue.from);
}

class Identity {
 public:
  Identity(const Tables& tables, const NumberRead& read) : t_(tables), read_(read), number_(tables.numbers[read.number]) {
    for (const RangeInfo& r : number_.ranges) total_ += static_cast<double>(r.last - r.first + 1);
    if (total_ <= 0) total_ = 1e6;  // no ranges: any serial of six figures
  }

  IdentityLikelihood run() {
    IdentityLikelihood out;
    out.match.assign(t_.builds(), 0.0);
    for (const FormReading& reading : read_.readings) {
      const double cost = std::pow(slip_cost, static_cast<double>(reading.slips.size()));
      out.stranger += cost * stranger(reading);
      std::vector<double>& match = out.by_reading.emplace_back(t_.builds(), 0.0);
      for (std::size_t r = 0; r < t_.routes.size(); ++r) route(r, reading, cost, match);
      for (std::size_t b = 0; b < match.size(); ++b) out.match[b] += match[b];
    }
    return out;
  }

 private:
  double stranger(const FormReading& reading) const {
    double p = 1.0 / static_cast<double>(number_.forms.size());
    for (const PartReading& part : reading.parts) {
      if (part.code) p /= static_cast<double>(number_.forms[reading.form].grammar.parts[part.part].codes.size());
    }
    return reading.serial ? p / total_ : p;
  }

  void route(std::size_t r, const FormReading& reading, double cost, std::vector<double>& match) const {
    const double codes = cost * codes_on(r, reading);
    if (codes <= 0) return;
    const RouteInfo& route = t_.routes[r];
    const std::vector<const RangeInfo*> ranges = reading.serial ? ranges_of(r, reading.form) : std::vector<const RangeInfo*>{};
    for (std::size_t i = 0; i < route.builds(); ++i) {
      const Month m = route.first + static_cast<int>(i);
      match[route.first_build + i] = codes * form_share(r, reading.form, m) * serial_share(ranges, reading, m);
    }
  }

  /// Each code among those that this route could have borne; a part whose codes say nothing of the route is even.
  double codes_on(std::size_t r, const FormReading& reading) const {
    double p = 1;
    for (const PartReading& part : reading.parts) {
      if (!part.code) continue;
      const auto& codes = number_.forms[reading.form].codes[part.part];
      double possible = 0;
      for (const CodeInfo& c : codes) possible += !c.scope || (*c.scope)[r] ? 1 : 0;
      const CodeInfo& read = codes[*part.code];
      if (possible <= 0) p /= static_cast<double>(codes.size());
      else p *= (!read.scope || (*read.scope)[r] ? 1.0 : 0.0) / possible;
    }
    return p;
  }

  double form_share(std::size_t r, std::size_t form, Month m) const {
    double sum = 0, own = 0;
    for (std::size_t f = 0; f < number_.forms.size(); ++f) {
      const FormInfo& info = number_.forms[f];
      if (!info.scope[r]) continue;
      const double p = presence(info.from, info.to, m);
      sum += p;
      if (f == form) own = p;
    }
    return sum > 0 ? own / sum : 1.0 / static_cast<double>(number_.forms.size());
  }

  std::vector<const RangeInfo*> ranges_of(std::size_t r, std::size_t form) const {
    std::vector<const RangeInfo*> out;
    for (const RangeInfo& range : number_.ranges) {
      if (range.scope[r] && form_allowed(range, form)) out.push_back(&range);
    }
    return out;
  }

  double serial_share(const std::vector<const RangeInfo*>& ranges, const FormReading& reading, Month m) const {
    if (!reading.serial) return 1.0;
    double issued = 0;
    bool hit = false, known = false;
    for (const RangeInfo* in_scope : ranges) {
      const RangeInfo& range = *in_scope;
      const double n = numbers_in_month(range, m);
      issued += n;
      if (*reading.serial >= range.first && *reading.serial <= range.last) {
        known = true;
        const double month = m.index;
        hit = hit || overlap(serial_span(range, *reading.serial), {month, month + 1}) > 0;
      }
    }
    // Silent on the serials of this month: even, unless the pack knows when this very serial was issued.
    if (issued <= 0) return known ? 0.0 : 1.0 / total_;
    return hit ? 1.0 / issued : 0.0;
  }

  const Tables& t_;
  const NumberRead& read_;
  const NumberInfo& number_;
  double total_ = 0;
};

}  // namespace

IdentityLikelihood identity_likelihood(const Tables& tables, const NumberRead& read) { return Identity(tables, read).run(); }

void take_identity(const Tables& tables, std::size_t read, Evidence& evidence) {
  evidence.identity = read;
  evidence.identity_says = std::make_shared<const IdentityLikelihood>(identity_likelihood(tables, evidence.numbers[read]));
}

std::vector<SerialWindow> serial_windows(const NumberInfo& number, std::size_t form, std::int64_t serial, const RouteSet& routes) {
  std::vector<SerialWindow> out;
  for (std::size_t i = 0; i < number.ranges.size(); ++i) {
    const RangeInfo& range = number.ranges[i];
    if (serial < range.first || serial > range.last || !form_allowed(range, form)) continue;
    bool meets = routes.empty();
    for (std::size_t r = 0; !meets && r < routes.size(); ++r) meets = routes[r] && range.scope[r];
    if (!meets) continue;
    const Span span = serial_span(range, serial);
    out.push_back({i, Month{static_cast<int>(std::floor(span.from))}, Month{static_cast<int>(std::ceil(span.to)) - 1}});
  }
  return out;
}

}  // namespace exworks
