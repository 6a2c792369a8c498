#pragma once
#include <cstddef>
#include <map>
#include <tuple>
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
  using Shares = std::vector<double>;
  struct Kin {
    bool any = false;
    Shares mean;  ///< [value]
  };
  const Column* spoken(std::size_t route, Month month) const;
  template <class Member>
  Kin mean_of(Month month, Member member) const;
  Kin nearest(std::size_t route, Month month) const;
  /// Are there two builds of one group and month, with different attributes, to which the works fitted something else?
  template <class Group, class Attribute>
  bool differs(Group group, Attribute attribute) const;

  const Tables& t_;
  const FeatureInfo& info_;
  const std::vector<std::vector<ColumnIndex>>& columns_;
  bool own_market_ = false, own_body_ = false;
  Shares everywhere_;  ///< the mean over every build of which the pack speaks; empty where there is none
  std::map<std::tuple<std::size_t, std::size_t, int>, Kin> known_;  ///< by variant, market and month
};

}  // namespace exworks
