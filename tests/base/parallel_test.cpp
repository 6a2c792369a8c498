#include "base/parallel.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <stdexcept>
#include <thread>
#include <vector>

using namespace exworks;

TEST_CASE("A loop in parallel does each piece of work once, and the results stand in order however many workers there are", "[parallel]") {
  for (const unsigned workers : {0u, 1u, 2u, 7u, 300u}) {
    std::vector<std::size_t> out(250);
    in_parallel(out.size(), [&](std::size_t i) { out[i] += i * i; }, workers);
    for (std::size_t i = 0; i < out.size(); ++i) CHECK(out[i] == i * i);
  }
  in_parallel(0, [](std::size_t) { FAIL("nothing was to be done"); });
  CHECK(worker_count() >= 1);
}

TEST_CASE("What a worker throws comes out of the loop, and nothing further is begun", "[parallel]") {
  std::atomic<int> begun{0};
  const auto loop = [&](unsigned workers) {
    in_parallel(
        10'000,
        [&](std::size_t i) {
          ++begun;
          if (i == 5) throw std::runtime_error("piece 5");
        },
        workers);
  };
  for (const unsigned workers : {1u, 4u}) {
    begun = 0;
    CHECK_THROWS_WITH(loop(workers), "piece 5");
    CHECK(begun < 10'000);
  }
}

TEST_CASE("Of several exceptions that of the first piece of work is the one that comes out", "[parallel]") {
  // Both have begun before either throws.
  std::atomic<int> here{0};
  const auto work = [&](std::size_t i) {
    ++here;
    while (here < 2) std::this_thread::yield();
    throw std::runtime_error("piece " + std::to_string(i));
  };
  CHECK_THROWS_WITH(in_parallel(2, work, 2), "piece 0");
}
