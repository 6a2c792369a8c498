#pragma once
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// Silence is not knowledge: what the works may have fitted to builds of which a feature's facts say nothing. The mean of the nearest
/// relatives that the pack speaks of, `relative` of it, and the rest even over the values that some fact names.
/// lib/handbook/the-arithmetic.md, "Silence".
class Relatives {
 public:
  /// `columns`: [route][month - its first], by dates; indexes `info.columns`. Both are read as they stand now.
  Relatives(const Tables& tables, const FeatureInfo& info, const std::vector<std::vector<ColumnIndex>>& columns);

  /// `silent` as it stands for a build of this route and month, with its shares filled in.
  Column related(std::size_t route, Month month, const Column& silent);

 private:
  /// Routes by how near they are: the same variant; the same generation and body; the same generation; the generations beside it.
  using Circles = std::array<std::vector<std::size_t>, 4>;
  /// What builds of one variant (and market, where markets differ) are related to, by month.
  struct Kin {
    Circles circles;
    Month first;
    std::vector<std::optional<std::vector<double>>> by_month;  ///< [month - first][value]; empty: there is no relative
  };
  using Shares = std::vector<std::pair<ColumnIndex, double>>;  ///< column, share of the builds
  const Shares& spoken_in(Month month);
  /// The column of a build of which the pack speaks, also where it says that there is no such feature; null where it is silent, and where the
  /// route has no such month.
  const Column* spoken_of(std::size_t route, Month month) const;
  /// The same of a build that has the feature: from those without it nothing follows for a silent one.
  const Column* relative(std::size_t route, Month month) const;
  std::vector<double> mean_of(const std::vector<std::size_t>& routes, Month month) const;
  Circles circles_of(const RouteInfo& own) const;
  std::vector<double> nearest(std::size_t route, Month month);
  /// Are there two builds of one group and month, with different attributes, to which the works fitted something else?
  template <class Group, class Attribute>
  bool differs(Group group, Attribute attribute) const;

  const Tables& t_;
  const FeatureInfo& info_;
  const std::vector<std::vector<ColumnIndex>>& columns_;
  bool own_market_ = false, own_body_ = false;
  std::optional<Month> first_, last_;  ///< of the pack
  std::vector<Shares> in_month_;       ///< [month - first_], when first asked for
  std::map<std::pair<std::size_t, std::size_t>, Kin> kin_;  ///< by variant and market
};

}  // namespace exworks
