#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"

/// A family's features as bars over the years: what the works fitted, when, in which markets.
namespace exworks {

struct TimelineSpan {
  Month from, to;
};

/// One value in markets that were all served alike.
struct TimelineBar {
  std::size_t value = 0;              ///< index into FeatureInfo::values; values.size() stands for "the pack is silent"
  std::vector<double> share;          ///< [month - Timeline::first] of the vehicles of these markets in this month
  std::vector<TimelineSpan> spans;    ///< runs of months with a share
};

struct TimelineGroup {
  std::vector<std::size_t> markets;   ///< all of them where the feature knows no difference
  bool others = false;                ///< the largest of several groups: "other markets"
  std::vector<TimelineBar> bars;      ///< in order of their beginning
};

struct TimelineFeature {
  FeatureIndex feature;
  std::vector<TimelineGroup> groups;
};

struct Timeline {
  Month first, last;
  std::vector<TimelineFeature> features;
};

/// From the columns of the tables, weighed by the number of vehicles built.
Timeline make_timeline(const Tables& tables);

nlohmann::ordered_json json_timeline(const Tables& tables, const Timeline& timeline);

}  // namespace exworks
