#include "base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace exworks {

namespace {

/// What the workers of one loop share.
class Loop {
 public:
  Loop(std::size_t count, const std::function<void(std::size_t)>& work) : count_(count), work_(work) {}

  void run() {
    for (std::size_t i = next_++; i < count_; i = next_++) {
      try {
        work_(i);
      } catch (...) {
        fail(i, std::current_exception());
      }
    }
  }

  void rethrow() const {
    if (thrown_) std::rethrow_exception(thrown_);
  }

 private:
  void fail(std::size_t i, std::exception_ptr thrown) {
    next_ = count_;
    const std::lock_guard lock(mutex_);
    if (thrown_ && at_ < i) return;
    thrown_ = std::move(thrown);
    at_ = i;
  }

  const std::size_t count_;
  const std::function<void(std::size_t)>& work_;
  std::atomic<std::size_t> next_{0};
  std::mutex mutex_;
  std::exception_ptr thrown_;
  std::size_t at_ = 0;
};

}  // namespace

unsigned worker_count() { return std::max(1u, std::thread::hardware_concurrency()); }

void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work, unsigned workers) {
  Loop loop(count, work);
  {
    std::vector<std::jthread> others;
    for (std::size_t w = 1; w < std::min<std::size_t>(workers, count); ++w) others.emplace_back([&loop] { loop.run(); });
    loop.run();
  }
  loop.rethrow();
}

}  // namespace exworks
