#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

namespace exworks::test::oracle {

/// Chance with the same outcome on every machine (SplitMix64).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }
  int between(int low, int high) { return low + static_cast<int>(below(static_cast<std::size_t>(high - low + 1))); }
  bool chance(double p) { return static_cast<double>(next() >> 11U) * 0x1p-53 < p; }
  /// One of low, low + 0.01, ... high: a share that a pack writes with two decimals.
  double share(double low, double high);
  /// `count` of the numbers below `n`, in ascending order.
  std::vector<std::size_t> some(std::size_t n, std::size_t count);
  /// One or more of the numbers below `n`, as members.
  std::vector<bool> members(std::size_t n);

 private:
  std::uint64_t state_;
};

}  // namespace exworks::test::oracle
