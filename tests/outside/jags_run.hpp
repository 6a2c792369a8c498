#pragma once
#include <string>
#include <vector>

#include "oracle.hpp"

/// The arithmetic in the words of JAGS, a general-purpose sampler: it builds vehicles by the pack's tables, lets things happen to
/// them, and weighs each by how well it fits what was noted (likelihood weighting). The draws are independent, so standard errors
/// are plain ones. The tables come from the oracle; every sum over what may have happened is JAGS's own.
namespace exworks::test::oracle {

/// Builds that the looked-at features can't tell apart, as one; the sampler has enough to do.
struct Cells {
  std::vector<std::size_t> build;  ///< [cell]: one of its builds
  std::vector<std::size_t> of;     ///< [build]
  Reals prior;
};
Cells cells_of(const Model& model);

/// What JAGS drew: [draw].
struct Draws {
  std::vector<std::size_t> cell, level;
  std::vector<std::vector<bool>> type;  ///< [look][draw]: the value there is that of the works
  std::vector<std::vector<bool>> had;   ///< [conversion][draw]
  std::vector<double> weight;
};

bool have_jags();
/// Fails the test where JAGS does.
Draws sample(const Model& model, const Cells& cells, int draws);

}  // namespace exworks::test::oracle
