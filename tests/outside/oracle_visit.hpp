#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "oracle_pack.hpp"

/// An inspection of a small pack's vehicle as plain structs.
namespace exworks::test::oracle {

/// One look at a feature. What was left open: the values and groups named (or all but these), or what fits the measure.
struct Look {
  std::size_t feature = 0;
  std::vector<std::size_t> values{};
  std::string how = "seen", sure = "sure";
  bool but = false;                                    ///< every one but these
  std::vector<std::size_t> groups{};                   ///< of the feature
  std::optional<std::pair<double, double>> measure{};  ///< from, to, in mm
};

struct Paper {
  std::string kind;
  std::optional<Window> date, built;
  std::string date_text{}, built_text{};  ///< how they are written, where not in the usual way
};

/// What somebody says of the build, or what is given: one member at most of each axis.
struct Claim {
  Scope scope;
  std::optional<Window> built;
};

struct Visit {
  std::optional<int> month{};  ///< of the inspection
  std::vector<Look> looks{};
  std::vector<Paper> papers{};
  std::vector<Claim> claims{};
  std::vector<NumberText> numbers{};  ///< at most one of each number
  Claim given{};
  std::optional<bool> given_own{};
  std::vector<std::string> given_words{};  ///< how `given` is written, where not by the ids
  std::string country{};                   ///< where the vehicle stands
};

}  // namespace exworks::test::oracle
