#pragma once
#include <cstdint>
#include <vector>

namespace exworks {

/// SplitMix64: the same numbers on every machine, which <random>'s distributions don't promise. Published by Steele, Lea
/// and Flood, "Fast splittable pseudorandom number generators", 2014; the constants are theirs.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ull);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
    return z ^ (z >> 31);
  }

  /// In [0, 1).
  double unit() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }

  /// An index in proportion to its weight; the weights need not sum to 1.
  std::size_t pick(const std::vector<double>& weights) {
    double sum = 0;
    for (double w : weights) sum += w;
    double at = unit() * sum;
    for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
      if ((at -= weights[i]) < 0) return i;
    }
    return weights.empty() ? 0 : weights.size() - 1;
  }

 private:
  std::uint64_t state_;
};

}  // namespace exworks
