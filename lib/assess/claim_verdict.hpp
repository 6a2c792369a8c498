#pragma once
#include <vector>

#include "assess/marginals.hpp"
#include "assess/settings.hpp"
#include "base/spelling.hpp"
#include "engine/evidence/evidence.hpp"
#include "record/inspection.hpp"

namespace exworks {

/// What one point of a claim is about.
enum class ClaimOf { built, generation, variant, body, market, plant };

struct ClaimPoint {
  ClaimOf of = ClaimOf::built;
  double p = 0;         ///< P(this point | everything)
  double p_before = 0;  ///< before looking
};

/// What everything seen has to say of a claim, against its odds before looking.
enum class ClaimSupport { speaks_for, says_nothing, speaks_against };

template <>
struct Spelling<ClaimSupport> {
  static constexpr std::string_view words[] = {"speaks for it", "says nothing", "speaks against it"};
};

/// A claim that names something that a build can be.
struct ClaimVerdict {
  std::size_t claim = 0;           ///< index into Inspection::claims
  Given given;                     ///< what it says, as a condition
  double p = 0;                    ///< P(all of it | everything)
  double p_before = 0;             ///< before looking
  ClaimSupport support = ClaimSupport::says_nothing;
  std::vector<ClaimPoint> points;  ///< in the order of ClaimOf
};

/// `build`, `before`: P(b | everything) and P(b) before looking, [build]. The names of the claims are known to the pack.
std::vector<ClaimVerdict> judge_claims(const Tables& tables, const Inspection& inspection, const std::vector<double>& build, const std::vector<double>& before, const Settings& settings);

}  // namespace exworks
