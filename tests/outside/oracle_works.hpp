#pragma once
#include <optional>
#include <vector>

#include "oracle_builds.hpp"

/// F_f(.|b): what the works fitted, and what is taken for it where the pack is silent.
namespace exworks::test::oracle {

enum class Voice {
  spoken,     ///< a standard fact or the law binds
  no_such,    ///< the feature's own scope says that there is none; counts as spoken
  related,    ///< silent: by its relatives
  unrelated,  ///< silent, and so are all relatives: as all of the month that is spoken of, on average
  mute        ///< silent, and nothing is spoken of: even
};

struct Works {
  Reals share;  ///< [value], `other` last
  Voice voice = Voice::spoken;
  bool silent() const { return voice != Voice::spoken && voice != Voice::no_such; }
};

/// What facts and law say of a build; nothing where they are silent. `serial`: the vehicle's own, for changeovers known by
/// number.
std::optional<Works> said(const SmallPack& pack, const Feature& feature, const Build& build, std::optional<Serial> serial);

/// Even over the named values that some fact or legal line of the feature gives, over all where none does.
Reals even_over_works_values(const Feature& feature);

/// A feature's builds by date, the silent ones filled.
class ByDate {
 public:
  ByDate(const SmallPack& pack, const Builds& builds, const Feature& feature);
  const std::vector<Works>& works() const { return works_; }  ///< [build]
  /// What a build has of which nothing is said.
  Works silent(std::size_t build) const;

 private:
  bool related(std::size_t build, std::size_t other, int nearness) const;
  bool differs(bool between_markets) const;

  const SmallPack& pack_;
  const Builds& builds_;
  const Feature& feature_;
  std::vector<std::optional<Works>> said_;  ///< [build]
  std::vector<Works> works_;
  bool differs_between_markets_ = false, differs_between_bodies_ = false;
};

/// The mean of `rows` over the builds of the month that are spoken of and have the feature, weighted by their number; over those of
/// all months where the month has none; empty where there are none at all.
Reals mean_over_spoken(const Builds& builds, const std::vector<Works>& works, const std::vector<Reals>& rows, int month);

}  // namespace exworks::test::oracle
