#include "report/render/timeline.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

namespace exworks {

namespace {

constexpr double visible = 0.002;  // less than this would be no thicker than a hair

class Builder {
 public:
  explicit Builder(const Tables& tables) : t_(tables) {
    out_.first = t_.routes.front().first;
    out_.last = t_.routes.front().last;
    for (const RouteInfo& r : t_.routes) {
      out_.first = std::min(out_.first, r.first);
      out_.last = std::max(out_.last, r.last);
    }
  }

  Timeline run() {
    for (FeatureIndex f; f < t_.features.size(); ++f) {
      if (!t_.features[f].of_number) feature(f);
    }
    std::stable_sort(out_.features.begin(), out_.features.end(),
                     [&](const TimelineFeature& a, const TimelineFeature& b) { return t_.features[a.feature].place < t_.features[b.feature].place; });
    return std::move(out_);
  }

 private:
  const Column& column(FeatureIndex f, std::size_t build) const { return t_.features[f].columns[t_.features[f].column_of[t_.cell_of[build]]]; }

  void feature(FeatureIndex f) {
    TimelineFeature feature;
    feature.feature = f;
    for (std::vector<std::size_t>& markets : alike(f)) {
      TimelineGroup group;
      group.markets = std::move(markets);
      group.bars = bars(f, group.markets);
      if (!group.bars.empty()) feature.groups.push_back(std::move(group));
    }
    if (feature.groups.size() > 1) {
      const auto largest = std::max_element(feature.groups.begin(), feature.groups.end(), [](const TimelineGroup& a, const TimelineGroup& b) { return a.markets.size() < b.markets.size(); });
      largest->others = largest->markets.size() > 2;
      if (largest->others) std::rotate(largest, largest + 1, feature.groups.end());
    }
    if (!feature.groups.empty()) out_.features.push_back(std::move(feature));
  }

  /// [variant, month] -> what the vehicles of one market had: the shares of the values, added up over plants, and their weight last.
  using Fitted = std::map<std::pair<std::size_t, int>, std::vector<double>>;

  Fitted fitted(FeatureIndex f, MarketIndex market) const {
    Fitted out;
    for (const RouteInfo& r : t_.routes) {
      if (r.market != market) continue;
      for (std::size_t i = 0; i < r.builds(); ++i) {
        const std::size_t build = r.first_build + i;
        const double p = t_.prior[build];
        const Column& c = column(f, build);
        if (p <= 0 || !c.applies) continue;
        auto& sum = out[{r.variant, (r.first + static_cast<int>(i)).index}];
        sum.resize(t_.features[f].value_count() + 1);
        for (std::size_t v = 0; !c.silent && v < c.share.size(); ++v) sum[v] += p * c.share[v];
        sum.back() += p;
      }
    }
    return out;
  }

  /// Were the same variants served alike in both markets, in the months in which both had them?
  static bool same(const Fitted& a, const Fitted& b) {
    for (const auto& [key, x] : a) {
      const auto at = b.find(key);
      if (at == b.end()) continue;
      for (std::size_t v = 0; v + 1 < x.size(); ++v) {
        if (std::abs(x[v] / x.back() - at->second[v] / at->second.back()) > 0.02) return false;
      }
    }
    return true;
  }

  std::vector<std::vector<std::size_t>> alike(FeatureIndex f) const {
    std::vector<std::vector<std::size_t>> groups;
    std::vector<Fitted> first;
    for (std::size_t m = 0; m < t_.axes.markets.size(); ++m) {
      Fitted here = fitted(f, MarketIndex{m});
      if (here.empty()) continue;
      std::size_t g = 0;
      while (g < groups.size() && !same(first[g], here)) ++g;
      if (g == groups.size()) {
        groups.emplace_back();
        first.push_back(std::move(here));
      }
      groups[g].push_back(m);
    }
    return groups;
  }

  std::vector<TimelineBar> bars(FeatureIndex f, const std::vector<std::size_t>& markets) const {
    const FeatureInfo& info = t_.features[f];
    const auto months = static_cast<std::size_t>(out_.last - out_.first) + 1;
    const std::size_t silent = info.values.size();
    std::vector<std::vector<double>> sum(silent + 1, std::vector<double>(months, 0));
    std::vector<double> all(months, 0);
    for (const RouteInfo& r : t_.routes) {
      if (std::find(markets.begin(), markets.end(), r.market) == markets.end()) continue;
      for (std::size_t i = 0; i < r.builds(); ++i) {
        const Column& c = column(f, r.first_build + i);
        const double p = t_.prior[r.first_build + i];
        if (!c.applies || p <= 0) continue;
        const std::size_t m = static_cast<std::size_t>(r.first - out_.first) + i;
        all[m] += p;
        if (c.silent) sum[silent][m] += p;
        for (std::size_t v = 0; !c.silent && v < silent; ++v) sum[v][m] += p * c.share[v];
      }
    }
    std::vector<TimelineBar> out;
    for (std::size_t v = 0; v <= silent; ++v) {
      TimelineBar bar;
      bar.value = v;
      bar.share.assign(months, 0);
      for (std::size_t m = 0; m < months; ++m) bar.share[m] = all[m] > 0 ? sum[v][m] / all[m] : 0;
      bar.spans = spans(bar.share);
      if (!bar.spans.empty()) out.push_back(std::move(bar));
    }
    std::stable_sort(out.begin(), out.end(), [&](const TimelineBar& a, const TimelineBar& b) {
      return std::pair(a.value == silent, a.spans.front().from) < std::pair(b.value == silent, b.spans.front().from);
    });
    return out;
  }

  std::vector<TimelineSpan> spans(const std::vector<double>& share) const {
    std::vector<TimelineSpan> out;
    for (std::size_t m = 0; m < share.size(); ++m) {
      if (share[m] < visible) continue;
      const Month month = out_.first + static_cast<int>(m);
      if (out.empty() || out.back().to + 1 != month) out.push_back({month, month});
      else out.back().to = month;
    }
    return out;
  }

  const Tables& t_;
  Timeline out_;
};

}  // namespace

Timeline make_timeline(const Tables& tables) { return Builder(tables).run(); }

nlohmann::ordered_json json_timeline(const Tables& t, const Timeline& timeline) {
  using Json = nlohmann::ordered_json;
  Json out = {{"family", t.family}, {"from", to_iso(timeline.first)}, {"to", to_iso(timeline.last)}, {"features", Json::array()}};
  for (const TimelineFeature& f : timeline.features) {
    Json feature = {{"id", t.features[f.feature].id}, {"name", t.features[f.feature].name}, {"markets", Json::array()}};
    for (const TimelineGroup& g : f.groups) {
      Json group = {{"markets", Json::array()}, {"values", Json::array()}};
      for (std::size_t m : g.markets) group["markets"].push_back(t.axes.markets[m].id);
      for (const TimelineBar& b : g.bars) {
        const bool silent = b.value == t.features[f.feature].values.size();
        Json spans = Json::array();
        for (const TimelineSpan& s : b.spans) spans.push_back({{"from", to_iso(s.from)}, {"to", to_iso(s.to)}});
        group["values"].push_back({{"value", silent ? "silent" : t.features[f.feature].values[b.value].id}, {"spans", std::move(spans)},
                                   {"largest_share", *std::max_element(b.share.begin(), b.share.end())}});
      }
      feature["markets"].push_back(std::move(group));
    }
    out["features"].push_back(std::move(feature));
  }
  return out;
}

}  // namespace exworks
