#include <cmath>

#include "oracle_works.hpp"

/// Silence is not knowledge: what is taken of a build of which the pack says nothing.
namespace exworks::test::oracle {

namespace {

constexpr int widest = 4;  ///< variant; generation and body; generation; the generations next to it

bool spoken(const std::optional<Works>& works) {
  return works && works->voice == Voice::spoken;
}

bool same(const Reals& a, const Reals& b) {
  for (std::size_t v = 0; v < a.size(); ++v) {
    if (std::fabs(a[v] - b[v]) > 1e-9L) return false;
  }
  return true;
}

}  // namespace

Reals mean_over_spoken(const Builds& builds, const std::vector<Works>& works, const std::vector<Reals>& rows, int month) {
  for (const bool of_the_month : {true, false}) {
    Reals out;
    Real all = 0;
    for (std::size_t b = 0; b < builds.p.size(); ++b) {
      if (works[b].voice != Voice::spoken || (of_the_month && builds.list[b].month != month)) continue;
      out.resize(rows[b].size(), 0);
      for (std::size_t v = 0; v < out.size(); ++v) out[v] += builds.p[b] * rows[b][v];
      all += builds.p[b];
    }
    if (all <= 0) continue;
    for (Real& x : out) x /= all;
    return out;
  }
  return {};
}

ByDate::ByDate(const SmallPack& pack, const Builds& builds, const Feature& feature)
    : pack_(pack), builds_(builds), feature_(feature) {
  for (const Build& build : builds.list) said_.push_back(said(pack, feature, build, std::nullopt));
  differs_between_markets_ = differs(true);
  differs_between_bodies_ = differs(false);
  for (std::size_t b = 0; b < said_.size(); ++b) works_.push_back(said_[b] ? *said_[b] : silent(b));
}

/// Two builds of one month of which the pack speaks, in two markets (of one variant) or two bodies (of one generation and
/// market), and not alike. A market or body without such a feature is spoken of, too.
bool ByDate::differs(bool between_markets) const {
  for (std::size_t a = 0; a < said_.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      const Build &x = builds_.list[a], &y = builds_.list[b];
      const Variant &v = pack_.variants[x.variant], &w = pack_.variants[y.variant];
      const bool pair = between_markets ? x.variant == y.variant && x.market != y.market
                                        : v.generation == w.generation && x.market == y.market && v.body != w.body;
      if (pair && x.month == y.month && said_[a] && said_[b] && !same(said_[a]->share, said_[b]->share)) return true;
    }
  }
  return false;
}

bool ByDate::related(std::size_t build, std::size_t other, int nearness) const {
  const Build &x = builds_.list[build], &y = builds_.list[other];
  if (build == other || x.month != y.month) return false;
  const Variant &v = pack_.variants[x.variant], &w = pack_.variants[y.variant];
  if (differs_between_markets_ && x.market != y.market) return false;
  if (differs_between_bodies_ && v.body != w.body) return false;
  switch (nearness) {
    case 1:
      return x.variant == y.variant;
    case 2:
      return v.generation == w.generation && v.body == w.body;
    case 3:
      return v.generation == w.generation;
    default:
      return v.generation == w.generation + 1 || v.generation + 1 == w.generation;
  }
}

Works ByDate::silent(std::size_t build) const {
  const Reals even = even_over_works_values(feature_);
  for (int nearness = 1; nearness <= widest; ++nearness) {
    Reals relative(feature_.values + 1, 0);
    Real all = 0;
    for (std::size_t d = 0; d < said_.size(); ++d) {
      if (!spoken(said_[d]) || !related(build, d, nearness)) continue;
      for (std::size_t v = 0; v < relative.size(); ++v) relative[v] += builds_.p[d] * said_[d]->share[v];
      all += builds_.p[d];
    }
    if (all <= 0) continue;
    const Real weight = pack_.rates.relative;
    for (std::size_t v = 0; v < relative.size(); ++v) relative[v] = weight * relative[v] / all + (1 - weight) * even[v];
    return {relative, Voice::related};
  }
  std::vector<Works> works(said_.size());
  std::vector<Reals> shares(said_.size(), Reals(feature_.values + 1, 0));
  for (std::size_t d = 0; d < said_.size(); ++d) {
    works[d].voice = said_[d] ? said_[d]->voice : Voice::mute;
    if (said_[d]) shares[d] = said_[d]->share;
  }
  const Reals mean = mean_over_spoken(builds_, works, shares, builds_.list[build].month);
  return mean.empty() ? Works{even, Voice::mute} : Works{mean, Voice::unrelated};
}

}  // namespace exworks::test::oracle
