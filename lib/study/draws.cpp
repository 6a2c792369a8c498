#include "study/draws.hpp"

#include "assess/marginals.hpp"
#include "assess/settings.hpp"
#include "base/random.hpp"
#include "engine/infer/posterior.hpp"

namespace exworks {

std::uint64_t seed_of(std::uint64_t seed, std::size_t i) { return Random(seed * 0x100000001b3ull + i).next(); }

int window_of(const Tables& t, const Evidence& evidence) {
  const DateSet date = marginals(t, infer(t, evidence).build, Settings{}.level).date;
  return date.to - date.from + 1;
}

}  // namespace exworks
