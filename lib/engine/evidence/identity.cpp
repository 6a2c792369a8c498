#include "engine/evidence/identity.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "engine/evidence/noting.hpp"

namespace exworks {

namespace {

/// How likely a slip is beside reading a number as it stands: one sign in ten looks like another where plates are worn; one number in a hundred
/// has a sign too many, too few, or two changed about. Judgement.
double cost_of(const NumberSlip& slip) {
  const bool sign_for_sign = slip.kind == NumberSlip::Kind::digit || slip.kind == NumberSlip::Kind::letter || slip.kind == NumberSlip::Kind::spelling;
  return sign_for_sign ? 0.1 : 0.01;
}

bool form_allowed(const RangeInfo& range, std::size_t form) {
  return range.forms.empty() || std::find(range.forms.begin(), range.forms.end(), form) != range.forms.end();
}

constexpr double out_of_range = 0.01;  // judgement: what a serial weighs that no range of its vehicle holds
constexpr double nine_tenths = 1.645;    // standard deviations either side that hold 90 % of a normal distribution
constexpr double unlisted_serials = 1e6;  // no ranges: any serial of six figures

class Identity {
 public:
  Identity(const Tables& tables, const NumberRead& read) : t_(tables), read_(read), number_(tables.numbers[read.number]) {
    for (const RangeInfo& r : number_.ranges) total_ += static_cast<double>(r.last - r.first + 1);
    if (total_ <= 0) total_ = unlisted_serials;
  }

  IdentityLikelihood run() {
    IdentityLikelihood out;
    out.match.assign(t_.builds(), 0.0);
    for (const FormReading& reading : read_.readings) {
      double cost = 1;
      for (const NumberSlip& slip : reading.slips) cost *= cost_of(slip);
      out.stranger += cost * stranger(reading);
      std::vector<double>& match = out.by_reading.emplace_back(t_.builds(), 0.0);
      for (std::size_t r = 0; r < t_.routes.size(); ++r) route(r, reading, cost, match);
      for (std::size_t b = 0; b < match.size(); ++b) out.match[b] += match[b];
    }
    out.placed = placed_;
    return out;
  }

 private:
  double stranger(const FormReading& reading) const {
    double p = 1.0 / static_cast<double>(number_.forms.size());
    for (const PartReading& part : reading.parts) {
      if (part.code) p /= static_cast<double>(number_.forms[reading.form].grammar.parts[part.part].codes.size());
    }
    return reading.serial ? p * share_of_all(reading) : p;
  }

  void route(std::size_t r, const FormReading& reading, double cost, std::vector<double>& match) {
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

  /// Of all serials those that it can be: one, unless figures could not be read.
  double share_of_all(const FormReading& reading) const { return std::min(1.0, Serials{*reading.serial, reading.serial_to}.count() / total_); }

  double serial_share(const std::vector<const RangeInfo*>& ranges, const FormReading& reading, Month m) {
    if (!reading.serial) return 1.0;
    const Serials serials{*reading.serial, reading.serial_to};
    double issued = 0, own = 0, pace = 0;
    bool held = false, issuing = false;
    for (const RangeInfo* range : ranges) {
      issued += numbers_in_month(*range, {range->first, range->last}, m);
      issuing = issuing || (range->from.first <= m && m <= range->to.last);
      if (serials.last < range->first || serials.first > range->last) continue;
      held = placed_ = true;
      own += numbers_in_month(*range, serials, m);
      pace = std::max(pace, static_cast<double>(range->last - range->first + 1) / months_of(*range));
    }
    // The ranges of this build are silent on the month: even.
    if (!held && !issuing) return share_of_all(reading);
    // Where a row ends and none goes on, numbers were issued that the pack doesn't know: as many a month as in the row.
    return (held ? (1 - out_of_range) * own / std::max(issued, pace) : 0.0) + out_of_range * share_of_all(reading);
  }

  /// As numbers_in(); each is worked out once.
  double numbers_in_month(const RangeInfo& range, Serials serials, Month m) {
    const Month first = range.from.first - months_around(range), last = range.to.last + months_around(range);
    if (m < first || m > last) return 0;
    std::vector<double>& months = numbers_[{&range, serials}];
    if (months.empty()) {
      for (Month x = first; x <= last; x = x + 1) months.push_back(numbers_in(range, serials, x));
    }
    return months[static_cast<std::size_t>(m - first)];
  }

  const Tables& t_;
  const NumberRead& read_;
  const NumberInfo& number_;
  double total_ = 0;
  bool placed_ = false;
  std::map<std::pair<const RangeInfo*, Serials>, std::vector<double>> numbers_;  ///< [month], from months_around() before the range on
};

}  // namespace

IdentityLikelihood identity_likelihood(const Tables& tables, const NumberRead& read) { return Identity(tables, read).run(); }

double not_own(const Rates& rates, const NumberSeen& seen) {
  const auto at_least = [&](Sureness step) { return rates.number_error[static_cast<std::size_t>(step)]; };
  const double by_look = at_least(trust_in(seen.how, seen.sure).listed);
  switch (seen.state) {
    case NumberState::as_found: return by_look;
    case NumberState::replaced_plate:
    case NumberState::copied: return std::max(by_look, at_least(Sureness::probable));
    case NumberState::restamped: return std::max(by_look, at_least(Sureness::guess));
  }
  return by_look;
}

void take_identity(const Tables& tables, std::size_t read, Evidence& evidence) {
  evidence.identity = read;
  evidence.identity_says = std::make_shared<const IdentityLikelihood>(identity_likelihood(tables, evidence.numbers[read]));
}

std::vector<SerialWindow> serial_windows(const NumberInfo& number, std::size_t form, Serials serials, const RouteSet& routes) {
  std::vector<SerialWindow> out;
  for (std::size_t i = 0; i < number.ranges.size(); ++i) {
    const RangeInfo& range = number.ranges[i];
    if (serials.last < range.first || serials.first > range.last || !form_allowed(range, form)) continue;
    bool meets = routes.empty();
    for (std::size_t r = 0; !meets && r < routes.size(); ++r) meets = routes[r] && range.scope[r];
    if (!meets) continue;
    const SerialPoint from = serial_point(range, std::max(serials.first, range.first)), to = serial_point(range, std::min(serials.last, range.last));
    out.push_back({i, Month{static_cast<int>(std::floor(from.at - nine_tenths * from.sd))}, Month{static_cast<int>(std::ceil(to.at + nine_tenths * to.sd)) - 1}});
  }
  return out;
}

}  // namespace exworks
