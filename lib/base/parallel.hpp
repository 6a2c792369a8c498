#pragma once
#include <cstddef>
#include <functional>

namespace exworks {

/// As many as this machine has cores that it lets us use; at least 1.
unsigned worker_count();

/// Calls `work` once for each of 0 .. count-1, on `workers` threads at a time. Where results belong in order, `work(i)` writes the i-th of
/// them, so that they are the same however many workers there are. When a call throws, no further one is begun, and of what was thrown
/// that of the lowest index is thrown here.
void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work, unsigned workers = worker_count());

}  // namespace exworks
