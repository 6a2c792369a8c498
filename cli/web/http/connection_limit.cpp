#include "web/http/connection_limit.hpp"

namespace exworks::cli::web {

bool ConnectionLimit::enter(const std::string& address) {
  const std::lock_guard lock(mutex_);
  std::size_t& here = inside_[address];
  if (here >= most_) return false;
  ++here;
  ++all_;
  return true;
}

void ConnectionLimit::leave(const std::string& address) {
  const std::lock_guard lock(mutex_);
  --all_;
  if (--inside_[address] == 0) inside_.erase(address);
}

}  // namespace exworks::cli::web
