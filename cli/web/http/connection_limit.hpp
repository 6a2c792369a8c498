#pragma once
#include <atomic>
#include <cstddef>
#include <map>
#include <mutex>
#include <string>

namespace exworks::cli::web {

/// How many connections are open, in all and from each address; no address may hold more than so many.
class ConnectionLimit {
 public:
  explicit ConnectionLimit(std::size_t most_of_one_address) : most_(most_of_one_address) {}

  /// A place among the connections of an address, given back when this object goes, however that comes about.
  class Place {
   public:
    Place(ConnectionLimit& limit, std::string address) : limit_(limit), address_(std::move(address)), had_(limit_.enter(address_)) {}
    ~Place() {
      if (had_) limit_.leave(address_);
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    /// False: the address holds as many as it may.
    bool had() const { return had_; }

   private:
    ConnectionLimit& limit_;
    std::string address_;
    bool had_;
  };

  std::size_t all() const { return all_; }

 private:
  bool enter(const std::string& address);
  void leave(const std::string& address);

  const std::size_t most_;
  std::mutex mutex_;
  std::map<std::string, std::size_t> inside_;  ///< by address
  std::atomic<std::size_t> all_{0};
};

}  // namespace exworks::cli::web
