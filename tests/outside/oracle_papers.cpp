#include <algorithm>

#include "oracle.hpp"

/// lib/handbook/papers-and-numbers.md: dated papers and claims, row by row of its table.
namespace exworks::test::oracle {

namespace {

int months_in(const Window& w) {
  return w.last - w.first + 1;
}

Real even(const Window& said, int before, int after, int month) {
  const Window w{said.first - before, said.last + after};
  return inside(w, month) ? Real{1} / static_cast<Real>(months_in(w)) : 0;
}

bool whole_year(const Window& said) {
  return months_in(said) == 12 && said.first % 12 == 0;
}

/// A whole calendar year may be a model year, which begins five months earlier.
Real as_owner(const Window& said, int month) {
  return even(said, whole_year(said) ? 5 : 0, 0, month);
}

Real registered(const Window& date, const Build& build) {
  const Real k = build.market == 0 ? 0.7L : 0.85L;
  Real total = 0;
  for (int month = date.first; month <= date.last; ++month) {
    const int lag = month - build.month;
    if (lag < 0) continue;
    Real power = 1;
    for (int i = 0; i < lag; ++i) power *= k;
    total += 0.80L * (1 - k) * power + (lag < 60 ? 0.15L / 60 : 0) + (lag < 600 ? 0.05L / 600 : 0);
  }
  return total / static_cast<Real>(months_in(date));
}

/// r and g(b); r is 0 for a paper without a date that says anything.
struct Shown {
  Real r = 0, g = 0;
};

Shown shown(const Paper& paper, const Build& build, Real u) {
  const int m = build.month;
  const std::string& kind = paper.kind;
  if (kind == "registration" && paper.date) return {0.95L, registered(*paper.date, build)};
  if (kind == "handbook") {
    const std::optional<Window>& said = paper.date ? paper.date : paper.built;
    return said ? Shown{0.6L, even(*said, 12, 24, m)} : Shown{};
  }
  const bool by_authority = kind == "test-certificate" || kind == "import-paper";
  if ((kind == "invoice" || kind == "photograph" || by_authority) && paper.date)
    return {by_authority ? 0.97L : 0.9L, m <= paper.date->last ? u : 0};
  const bool of_the_build = kind == "build-record" || kind == "works-record" || kind == "plate";
  const std::optional<Window>& said = paper.built || !of_the_build ? paper.built : paper.date;
  if (!said) return {};
  if (kind == "build-record") return {0.99L, even(*said, 1, 1, m)};
  if (kind == "works-record" || kind == "letter") return {0.97L, even(*said, 1, 1, m)};
  if (kind == "plate") return {0.9L, whole_year(*said) ? as_owner(*said, m) : even(*said, 1, 1, m)};
  return {kind == "registration" ? 0.95L : by_authority ? 0.7L : kind == "claim" ? 0.3L : 0.5L, as_owner(*said, m)};
}

}  // namespace

bool Model::weighs(const Paper& paper) const {
  return shown(paper, builds().front(), 1).r > 0;
}

/// The papers, and the claims with a date as papers where no registration is dated.
std::vector<Paper> Model::papers() const {
  std::vector<Paper> out;
  std::copy_if(visit_.papers.begin(), visit_.papers.end(), std::back_inserter(out), [&](const Paper& p) { return weighs(p); });
  if (std::any_of(out.begin(), out.end(), [](const Paper& p) { return p.kind == "registration"; })) return out;
  for (const Claim& claim : visit_.claims) {
    if (claim.built) out.push_back({"claim", {}, claim.built});
  }
  return out;
}

/// u: 1 over the months of the whole pack.
Real Model::unspecific() const {
  const auto [first, last] =
      std::minmax_element(builds().begin(), builds().end(), [](const Build& a, const Build& b) { return a.month < b.month; });
  return Real{1} / static_cast<Real>(last->month - first->month + 1);
}

Real Model::paper_weight(const Paper& paper, std::size_t build) const {
  const Real u = unspecific();
  const Shown s = shown(paper, builds()[build], u);
  return s.r * s.g + (1 - s.r) * u;
}

Real Model::paper_right(const Paper& paper, const Reals& posterior) const {
  Real out = 0;
  const Real u = unspecific();
  for (std::size_t b = 0; b < builds().size(); ++b) {
    const Shown s = shown(paper, builds()[b], u);
    out += posterior[b] * s.r * s.g / (s.r * s.g + (1 - s.r) * u);
  }
  return out;
}

bool Model::claimed(const Claim& claim, const Build& build) const {
  return covers(claim.scope, build) && (!claim.built || inside(*claim.built, build.month));
}

Real Model::claim_odds(const Claim& claim, const Reals& posterior) const {
  Real out = 0;
  for (std::size_t b = 0; b < builds().size(); ++b) out += claimed(claim, builds()[b]) ? posterior[b] : 0;
  return out;
}

/// What the papers weigh and what is given leaves: [build].
Reals Model::papers_weight() const {
  Reals out(builds().size(), 1);
  for (const Paper& paper : papers()) {
    for (std::size_t b = 0; b < out.size(); ++b) out[b] *= paper_weight(paper, b);
  }
  for (std::size_t b = 0; b < out.size(); ++b) {
    if (!claimed(visit_.given, builds()[b])) out[b] = 0;
  }
  return out;
}

}  // namespace exworks::test::oracle
