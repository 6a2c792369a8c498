#include <algorithm>
#include <array>
#include <cstdio>

#include "base/text.hpp"
#include "report/kinds/parts.hpp"
#include "words/scales.hpp"

namespace exworks {

std::string_view language_of(Region region) { return region == Region::en_US ? "en-US" : region == Region::en_AU ? "en-AU" : "en-GB"; }

std::string long_date(const std::string& iso, Region region) {
  static constexpr std::array<const char*, 12> names{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};
  const auto digits = [&](std::size_t at, std::size_t n) { return std::all_of(iso.begin() + static_cast<std::ptrdiff_t>(at), iso.begin() + static_cast<std::ptrdiff_t>(at + n), [](char c) { return c >= '0' && c <= '9'; }); };
  if (iso.size() != 10 || !digits(0, 4) || !digits(5, 2) || !digits(8, 2)) return iso;
  const int month = std::stoi(iso.substr(5, 2)), day = std::stoi(iso.substr(8, 2));
  if (month < 1 || month > 12) return iso;
  const std::string name = names[static_cast<std::size_t>(month - 1)];
  return region == Region::en_US ? name + " " + std::to_string(day) + ", " + iso.substr(0, 4) : std::to_string(day) + " " + name + " " + iso.substr(0, 4);
}

namespace {

std::string trimmed(double v, int decimals) {
  char buffer[48];
  std::snprintf(buffer, sizeof buffer, "%.*f", decimals, v);
  std::string out = buffer;
  if (out.find('.') != std::string::npos) {
    while (out.back() == '0') out.pop_back();
    if (out.back() == '.') out.pop_back();
  }
  return out;
}

}  // namespace

std::string measure_words(double value, const std::string& unit, Region region) {
  if (unit != "mm" && unit != "in") return trimmed(value, 3) + (unit.empty() || unit == "none" ? "" : " " + unit);
  const double mm = unit == "mm" ? value : value * 25.4;
  const std::string metric = trimmed(mm, unit == "mm" ? 2 : mm < 20 ? 1 : 0) + " mm", inches = trimmed(mm / 25.4, unit == "in" ? 3 : mm < 20 ? 3 : 2) + " in";
  return region == Region::en_US ? inches + " (" + metric + ")" : metric + " (" + inches + ")";
}

namespace parts {

std::string odds_words(double p) {
  const std::string words = probability_words(p);
  return percent(p) + (words.empty() ? "" : " (" + words + ")");
}

std::string ratio_words(double ratio) {
  const double r = ratio >= 1 ? ratio : 1 / ratio;
  char buffer[32];
  if (!(r < 10'000)) return "over 10 000";
  std::snprintf(buffer, sizeof buffer, r < 10 ? "%.1f" : "%.0f", r);
  return buffer;
}

std::string hours_words(double h) { return trimmed(h, 1) + (h == 1 ? " hour" : " hours"); }

std::string going_back(const FeatureVerdict& f) {
  std::string out;
  if (f.reversible != Reversible::unknown) out = f.reversible == Reversible::yes ? "It comes off again" : f.reversible == Reversible::no ? "It does not come off again" : "It comes off again in part";
  if (f.hours > 0) out += (out.empty() ? "To put back: about " : ", about ") + hours_words(f.hours);
  return out.empty() ? out : out + ".";
}

std::string build_words(const Tables& t, const Assessment& a) {
  return t.axes.variants[a.variants.front().index].name + ", " + t.axes.markets[a.markets.front().index].name + ", built " + span_words(a.date.from, a.date.to);
}

std::string counts_words(const Assessment& a) {
  std::size_t original = 0, later = 0;
  for (const FeatureVerdict& f : a.features) {
    original += f.verdict == VerdictKind::original;
    later += f.verdict == VerdictKind::later_change;
  }
  const std::size_t open = a.features.size() - original - later;
  return std::to_string(a.features.size()) + (a.features.size() == 1 ? " feature was" : " features were") + " observed: " + std::to_string(original) + " of the type fitted when new, " + std::to_string(later) +
         (later == 1 ? " later change, " : " later changes, ") + std::to_string(open) + " uncertain.";
}

std::vector<std::vector<std::size_t>> change_groups(const Tables& t, const Assessment& a) {
  const auto same = [&](const FeatureVerdict& f, const FeatureVerdict& g) {
    if (f.later_change || g.later_change) return f.later_change == g.later_change;
    const auto& assembly = t.features[f.finding.feature].assembly;
    return f.donor && g.donor && assembly && assembly == t.features[g.finding.feature].assembly;
  };
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < a.features.size(); ++i) {
    if (a.features[i].verdict != VerdictKind::later_change) continue;
    const auto at = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return same(a.features[g.front()], a.features[i]); });
    if (at == groups.end()) groups.push_back({i});
    else at->push_back(i);
  }
  return groups;
}

std::string group_name(const Tables& t, const Assessment& a, const std::vector<std::size_t>& group) {
  const FeatureVerdict& f = a.features[group.front()];
  return upper_first(f.later_change ? t.changes[*f.later_change].name : f.name + ": " + f.observed);
}

namespace {

double in_span(const Assessment& a, const Edge& span) {
  if (span.open) return 1;
  double p = 0;
  for (std::size_t m = 0; m < a.month_odds.size(); ++m) {
    const Month month = a.first_month + static_cast<int>(m);
    if (month >= span.first && month <= span.last) p += a.month_odds[m];
  }
  return p;
}

template <class Items>
void axis(std::vector<ClaimPart>& out, const std::string& label, const std::string& claimed, const std::vector<Odds>& odds, const Items& items) {
  if (claimed.empty()) return;
  ClaimPart part{label + ": " + claimed, 0, items[odds.front().index].name + ", " + percent(odds.front().p)};
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].id == claimed) part.what = label + ": " + items[i].name;
  }
  for (const Odds& o : odds) part.p += items[o.index].id == claimed ? o.p : 0;
  out.push_back(std::move(part));
}

}  // namespace

std::vector<ClaimPart> claim_parts(const Tables& t, const Assessment& a, const Claim& c) {
  std::vector<ClaimPart> out;
  if (c.built) out.push_back({"Built: " + to_words(*c.built), in_span(a, *c.built), span_words(a.date.from, a.date.to) + " (" + percent(a.date.level) + " of the odds)"});
  axis(out, "Generation", c.generation, a.generations, t.axes.generations);
  axis(out, "Variant", c.variant, a.variants, t.axes.variants);
  axis(out, "Body", c.body, a.bodies, t.axes.bodies);
  axis(out, "Market", c.market, a.markets, t.axes.markets);
  axis(out, "Plant", c.plant, a.plants, t.axes.plants);
  return out;
}

}  // namespace parts

}  // namespace exworks
