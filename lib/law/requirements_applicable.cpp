#include <algorithm>
#include <chrono>

#include "law/requirements.hpp"

namespace exworks {

namespace {

/// A first-use date can lie this far from the build: stock, and rules that count manufacture six months earlier (dossier).
constexpr int stock_months = 6;
/// A model year begins about this long before its calendar year (dossier).
constexpr int model_year_lead = 5;

/// Months in which a build may be bound, and the months inside them in which it surely is.
struct Span {
  Month may_first, sure_first, sure_last, may_last;
};

int month_length(Month m) {
  const std::chrono::year_month_day_last last = std::chrono::year{m.year()} / m.month() / std::chrono::last;
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

Span span_of(const Requirement& r) {
  const Month never = Month::of(1, 1), ever = Month::of(9999, 1);
  Span s{never, never, ever, ever};
  if (r.from) {
    const Month m = r.from->month;
    if (r.basis == Basis::first_used) s.may_first = m - stock_months, s.sure_first = m + stock_months;
    else if (r.basis == Basis::model_year) s.may_first = m - model_year_lead, s.sure_first = m;
    else s.may_first = m, s.sure_first = r.from->day == 1 ? m : m + 1;
  }
  if (r.to) {
    const Month m = r.to->month;
    const bool whole_month = r.to->day == month_length(m);
    if (r.basis == Basis::first_used) s.sure_last = m - stock_months, s.may_last = m + stock_months;
    else if (r.basis == Basis::model_year) s.sure_last = m - model_year_lead, s.may_last = m;
    else s.sure_last = whole_month ? m : m - 1, s.may_last = m;
  }
  return s;
}

}  // namespace

BoundMonths bound_months(const Requirement& r) {
  const Span s = span_of(r);
  BoundMonths out;
  if (r.from) out.from = Edge{s.may_first, std::max(s.may_first, s.sure_first)};
  if (r.to) out.to = Edge{std::min(s.sure_last, s.may_last), s.may_last};
  return out;
}

namespace {

std::optional<Standing> standing_of(const Requirement& r, Month built) {
  if (r.counts_in_use) {
    const bool born_later = r.strength == Strength::must_retrofit && r.from && built > r.from->month;
    if (born_later) return std::nullopt;
    return Standing::in_use;
  }
  // A duty without dates is one of use: it says nothing of the vehicle when new.
  if (!r.from && !r.to && (r.strength == Strength::must || r.strength == Strength::must_not)) return Standing::in_use;
  const Span s = span_of(r);
  if (built < s.may_first || built > s.may_last) return std::nullopt;
  if (r.strength == Strength::must_in_service) return Standing::in_use;
  return built < s.sure_first || built > s.sure_last ? Standing::may_be_in_force : Standing::in_force;
}

std::string caution_for(const Requirement& r, const std::string& country, bool asked_region) {
  std::string out;
  const auto say = [&](const std::string& sentence) { out += (out.empty() ? "" : " ") + sentence; };
  if (r.strength == Strength::must_retrofit) say("Older vehicles gained this lawfully, so having it proves nothing.");
  else if (r.strength == Strength::must_in_service) say("This is the law of today for a vehicle that old; it may have been missing when new, and later fitting is normal.");
  else if (r.counts_in_use) say("A rule for vehicles on the road, whatever their age; it says nothing of what was there when new.");
  else if (r.strength == Strength::mark_new) say("The mark did not exist before; it can be moved to another vehicle.");
  if (r.basis == Basis::first_used && !r.counts_in_use) {
    say("The dates count first use there, normally first registration: allow six months of stock either side of the build. A vehicle used abroad, by the Crown or by forces "
        "before that counts from its manufacture (memory), and one imported later is bound by its date of first use, not by its build.");
  }
  if (r.basis == Basis::model_year && !r.counts_in_use) say("The dates are model years, which begin in the late summer or autumn of the year before.");
  if (!r.proof) say("Nothing is held against a part by this rule alone.");
  if (!r.bound.empty()) say("It binds: " + r.bound + ".");
  if (!r.region.empty()) say("Read for " + country + "-" + r.region + " only" + (asked_region ? "." : "; the vehicle may have been new elsewhere."));
  if (r.certainty == Certainty::one_source) say("One secondary source says so.");
  if (r.certainty == Certainty::conflicting) say("The sources disagree.");
  if (r.certainty == Certainty::memory) say("Remembered only: never use it as a hard rule.");
  return out;
}

bool can_be_hard(const Requirement& r) {
  return r.proof && r.bound.empty() && r.certainty == Certainty::published && (r.strength == Strength::must || r.strength == Strength::must_not);
}

}  // namespace

std::vector<Applicable> applicable(const std::vector<Requirements>& requirements, std::string_view country, std::string_view vehicle_class, Month built) {
  const auto dash = country.find('-');
  const std::string_view nation = country.substr(0, dash);
  const std::string_view region = dash == std::string_view::npos ? std::string_view{} : country.substr(dash + 1);
  std::vector<Applicable> out;
  for (const Requirements& market : requirements) {
    if (market.country != nation) continue;
    for (const Requirement& r : market.rows) {
      if (std::find(r.classes.begin(), r.classes.end(), vehicle_class) == r.classes.end()) continue;
      if (!r.region.empty() && !region.empty() && r.region != region) continue;
      auto standing = standing_of(r, built);
      if (!standing) continue;
      const bool region_unknown = !r.region.empty() && region.empty();
      if (region_unknown && *standing == Standing::in_force) standing = Standing::may_be_in_force;
      const bool hard = *standing == Standing::in_force && can_be_hard(r);
      out.push_back({&r, *standing, caution_for(r, market.country, !region_unknown), hard});
    }
  }
  return out;
}

}  // namespace exworks
