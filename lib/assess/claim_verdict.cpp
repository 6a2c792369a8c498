#include "assess/claim_verdict.hpp"

#include <cmath>

#include "engine/evidence/given.hpp"

namespace exworks {

namespace {

double odds_of(const Tables& t, const std::vector<double>& build, const Given& given) {
  double p = 0;
  for (const RouteInfo& r : t.routes) {
    for (std::size_t i = 0; i < r.builds(); ++i) {
      if (given.allows(r, r.first + static_cast<int>(i))) p += build[r.first_build + i];
    }
  }
  return p;
}

ClaimSupport support_of(double p, double before, const Settings& settings) {
  if (before <= 0 || before >= 1) return ClaimSupport::says_nothing;
  const double factor = p >= 1 ? INFINITY : p / (1 - p) / (before / (1 - before));
  return factor >= settings.speaks_from ? ClaimSupport::speaks_for : factor <= 1 / settings.speaks_from ? ClaimSupport::speaks_against : ClaimSupport::says_nothing;
}

/// The claim with one of its points alone.
Claim point_of(const Claim& c, ClaimOf of) {
  Claim out;
  switch (of) {
    case ClaimOf::built: out.built = c.built; break;
    case ClaimOf::generation: out.generation = c.generation; break;
    case ClaimOf::variant: out.variant = c.variant; break;
    case ClaimOf::body: out.body = c.body; break;
    case ClaimOf::market: out.market = c.market; break;
    case ClaimOf::plant: out.plant = c.plant; break;
  }
  return out;
}

}  // namespace

std::vector<ClaimVerdict> judge_claims(const Tables& t, const Inspection& inspection, const std::vector<double>& build, const std::vector<double>& before, const Settings& settings) {
  std::vector<ClaimVerdict> out;
  for (std::size_t i = 0; i < inspection.claims.size(); ++i) {
    const Claim& claim = inspection.claims[i];
    ClaimVerdict verdict{i, as_given(t, claim), 0, 0, ClaimSupport::says_nothing, {}};
    for (ClaimOf of : {ClaimOf::built, ClaimOf::generation, ClaimOf::variant, ClaimOf::body, ClaimOf::market, ClaimOf::plant}) {
      const Given point = as_given(t, point_of(claim, of));
      if (point.any()) verdict.points.push_back({of, odds_of(t, build, point), odds_of(t, before, point)});
    }
    if (verdict.points.empty()) continue;
    verdict.p = odds_of(t, build, verdict.given);
    verdict.p_before = odds_of(t, before, verdict.given);
    verdict.support = support_of(verdict.p, verdict.p_before, settings);
    out.push_back(std::move(verdict));
  }
  return out;
}

}  // namespace exworks
