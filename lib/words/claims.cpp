#include "words/claims.hpp"

#include "words/scales.hpp"

namespace exworks {

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

}  // namespace exworks
