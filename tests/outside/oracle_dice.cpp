#include "oracle_dice.hpp"

#include <algorithm>
#include <cmath>

namespace exworks::test::oracle {

std::uint64_t Dice::next() {
  std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31U);
}

double Dice::share(double low, double high) {
  return between(static_cast<int>(std::lround(low * 100)), static_cast<int>(std::lround(high * 100))) / 100.0;
}

std::vector<std::size_t> Dice::some(std::size_t n, std::size_t count) {
  std::vector<std::size_t> all(n);
  for (std::size_t i = 0; i < n; ++i) all[i] = i;
  for (std::size_t i = 0; i < count; ++i) std::swap(all[i], all[i + below(n - i)]);
  all.resize(count);
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<bool> Dice::members(std::size_t n) {
  std::vector<bool> out(n, false);
  for (const std::size_t i : some(n, 1 + below(n))) out[i] = true;
  return out;
}

}  // namespace exworks::test::oracle
