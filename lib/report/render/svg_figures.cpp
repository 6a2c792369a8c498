#include <algorithm>
#include <array>
#include <cmath>

#include "assess/summary.hpp"
#include "report/render/svg.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

struct Share {
  std::string name;
  double p;
};

template <class Items>
std::vector<Share> leading(const std::vector<Odds>& odds, const Items& items) {
  std::vector<Share> out;
  double rest = 0;
  for (const Odds& o : odds) {
    if (out.size() < 4 && (out.empty() || o.p >= 0.01)) out.push_back({items[o.index].name, o.p});
    else rest += o.p;
  }
  if (rest >= 0.005) out.push_back({"all others", rest});
  return out;
}

}  // namespace

Figure figure_odds(const Tables& t, const Assessment& a) {
  const std::array<std::pair<const char*, std::vector<Share>>, 4> groups{{{"Generation", leading(a.generations, t.axes.generations)}, {"Variant", leading(a.variants, t.axes.variants)},
                                                                           {"Market", leading(a.markets, t.axes.markets)}, {"Plant", leading(a.plants, t.axes.plants)}}};
  double height = 6;
  for (const auto& [title, shares] : groups) height += 24 + 30 * static_cast<double>(shares.size());
  const std::string says = "The leading variant is " + groups[1].second.front().name + ", " + percent(groups[1].second.front().p) + ".";
  Svg svg("odds", height, "Odds of the generation, variant, market and plant", says);
  double y = 18;
  for (const auto& [title, shares] : groups) {
    svg.text(0, y, title, Svg::Anchor::start, "ink", true);
    y += 20;
    for (const Share& s : shares) {
      svg.text(0, y, fitted(s.name, 52), Svg::Anchor::start, "ink", false, 11.5);
      svg.text(Svg::width, y, percent(s.p), Svg::Anchor::end, "ink", false, 11.5);
      svg.rect(0, y + 4, Svg::width, 7, "ground", 3);
      svg.rect(0, y + 4, std::max(1.0, Svg::width * s.p), 7, "g-original", 3);
      y += 30;
    }
    y += 4;
  }
  return {svg.finish(), "What the vehicle may be, in per cent of the odds. These are odds of the build given everything observed and the pack's production figures.", says};
}

Figure figure_score(const Assessment& a) {
  const Score& s = a.score;
  const std::string says = percent(s.value) + " of the weight inspected is as built (90 % interval " + percent(s.low) + " to " + percent(s.high) + "); " + percent(s.coverage) + " of the weight was inspected.";
  Svg svg("score", 112, "Originality of type", says);
  const double w = Svg::width;
  svg.text(0, 14, "As built, of what was inspected: " + percent(s.value), Svg::Anchor::start, "ink", true);
  svg.rect(0, 24, w, 14, "ground", 3);
  svg.rect(0, 24, w * s.value, 14, "g-original", 3);
  svg.line(w * s.low, 42, w * s.high, 42, "s-later");
  for (double end : {s.low, s.high}) svg.line(w * end, 38, w * end, 46, "s-later");
  svg.text(std::clamp(w * (s.low + s.high) / 2, 60.0, w - 60), 57, percent(s.low) + " to " + percent(s.high), Svg::Anchor::middle, "mute", false, 11);
  svg.text(0, 80, "Inspected, of the vehicle's weight: " + percent(s.coverage), Svg::Anchor::start, "ink", true);
  svg.rect(0, 90, w, 14, "ground", 3);
  svg.rect(0, 90, w * s.coverage, 14, "rule", 3);
  return {svg.finish(), "The bracket is the 90 % interval. Type, not part: a like-for-like replacement counts as built.", says};
}

namespace {

/// Where a place's counts stand on the plan of the vehicle; places that the drawing does not know are listed below it.
struct Spot {
  std::string_view place;
  double x, y;
};
constexpr std::array<Spot, 9> spots{{{"papers", 52, 44}, {"front", 200, 30}, {"engine-bay", 200, 100}, {"left", 52, 190}, {"interior", 200, 196}, {"right", 348, 190},
                                     {"load-space", 200, 288}, {"rear", 200, 378}, {"underneath", 348, 360}}};

void outline_of_vehicle(Svg& svg) {
  svg.outline({{124, 84}, {132, 62}, {152, 54}, {248, 54}, {268, 62}, {276, 84}, {280, 150}, {280, 320}, {272, 344}, {250, 352}, {150, 352}, {128, 344}, {120, 320}, {120, 150}}, "line", true);
  svg.line(126, 140, 274, 140);   // the scuttle
  svg.line(126, 250, 274, 250);   // behind the seats
  for (double x : {106.0, 280.0}) {
    svg.rect(x, 78, 14, 40, "rule", 5, 0.55);
    svg.rect(x, 286, 14, 40, "rule", 5, 0.55);
  }
}

void counts_at(Svg& svg, double x, double y, const std::string& name, const VerdictCounts& c) {
  svg.text(x, y, fitted(name, 18), Svg::Anchor::middle, "ink", true, 11);
  const std::array<std::pair<std::size_t, std::pair<std::string, std::string_view>>, 3> lines{{{c.original, {"✓ " + std::to_string(c.original), "g-original"}},
                                                                                               {c.later, {"✕ " + std::to_string(c.later), "g-later"}},
                                                                                               {c.uncertain, {"~ " + std::to_string(c.uncertain), "g-uncertain"}}}};
  if (c.all() == 0) {
    svg.text(x, y + 15, "nothing seen", Svg::Anchor::middle, "mute", false, 11);
    return;
  }
  double at = x - 34;
  for (const auto& [n, label] : lines) {
    svg.text(at, y + 16, label.first, Svg::Anchor::middle, n > 0 ? label.second : "mute", n > 0, 12.5);
    at += 34;
  }
}

/// "Standing at the front" is where the inspector stands; on the drawing it is the front.
std::string short_place(const std::string& id, const std::string& name) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 9> words{{{"papers", "Papers"}, {"front", "Front"}, {"engine-bay", "Engine"}, {"left", "Left side"},
    {"interior", "Driver's seat"}, {"right", "Right side"}, {"load-space", "Back"}, {"rear", "Rear"}, {"underneath", "Underneath"}}};
  for (const auto& [i, w] : words) {
    if (i == id) return std::string(w);
  }
  return name;
}

}  // namespace

Figure figure_plan(const Tables& t, const Assessment& a) {
  const std::vector<VerdictCounts> counts = counts_by_place(t, a);
  std::vector<std::size_t> beside;
  for (std::size_t p = 0; p < t.catalogue.places.size(); ++p) {
    const bool known = std::any_of(spots.begin(), spots.end(), [&](const Spot& s) { return s.place == t.catalogue.places[p].id; });
    if (!known && counts[p].all() > 0) beside.push_back(p);
  }
  std::string says;
  for (std::size_t p = 0; p < counts.size(); ++p) {
    if (counts[p].all() == 0) continue;
    says += (says.empty() ? "" : "; ") + short_place(t.catalogue.places[p].id, t.catalogue.places[p].name) + ": " + std::to_string(counts[p].original) + " as built, " + std::to_string(counts[p].later) + " later, " +
            std::to_string(counts[p].uncertain) + " uncertain";
  }
  says = says.empty() ? "Nothing was observed." : says + ".";
  Svg svg("plan", 404 + 40 * std::ceil(static_cast<double>(beside.size()) / 3), "The vehicle seen from above: what is as built, and where", says);
  outline_of_vehicle(svg);
  for (std::size_t p = 0; p < t.catalogue.places.size(); ++p) {
    for (const Spot& s : spots) {
      if (s.place == t.catalogue.places[p].id) counts_at(svg, s.x, s.y, short_place(t.catalogue.places[p].id, t.catalogue.places[p].name), counts[p]);
    }
  }
  for (std::size_t i = 0; i < beside.size(); ++i) {
    counts_at(svg, 70 + 130 * static_cast<double>(i % 3), 424 + 40 * std::floor(static_cast<double>(i) / 3), t.catalogue.places[beside[i]].name, counts[beside[i]]);
  }
  return {svg.finish(), "A plan, front at the top. ✓ as built, ✕ later change, ~ uncertain: features observed at each place.", says, true};
}

}  // namespace exworks
