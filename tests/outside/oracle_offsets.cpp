#include <algorithm>

#include "oracle.hpp"

/// All dates of a pack may lie off the line's by the same months: a vehicle then looks as one that was built earlier or later.
namespace exworks::test::oracle {

std::size_t looks_like(const std::vector<Build>& builds, std::size_t build, int later) {
  const Build& own = builds[build];
  const auto same_row = [&](const Build& b) { return b.variant == own.variant && b.market == own.market && b.plant == own.plant; };
  std::size_t out = build;
  for (std::size_t b = 0; b < builds.size(); ++b) {
    if (!same_row(builds[b])) continue;
    // Kept within the row: the month that is nearest to the one wanted.
    const auto off = [&](std::size_t x) { return std::abs(builds[x].month - (own.month - later)); };
    if (off(b) < off(out)) out = b;
  }
  return out;
}

std::vector<World> Model::list_worlds() const {
  const std::vector<double>& shares = pack().rates.offset_shares;
  std::vector<World> out;
  std::size_t reading = 0;
  for (const World& world : worlds_by_number()) {
    for (std::size_t d = 0; d < shares.size(); ++d) {
      const int later = static_cast<int>(d) - static_cast<int>(shares.size() / 2);
      World at = world;
      at.reading = reading;
      for (Real& p : at.weight) p *= Real{shares[d]};
      for (std::size_t b = 0; b < builds().size(); ++b) at.like.push_back(looks_like(builds(), b, later));
      for (std::size_t f = 0; f < at.works.size(); ++f) {
        for (std::size_t b = 0; b < builds().size(); ++b) {
          at.works[f][b] = world.works[f][at.like[b]];
          at.changed[f][b] = world.changed[f][at.like[b]];
        }
      }
      out.push_back(std::move(at));
    }
    ++reading;
  }
  return out;
}

}  // namespace exworks::test::oracle
