#pragma once
#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

/// Who may come in: one-time codes that admit a device, the sessions they become, and how often one may ask. It takes the time
/// from its caller, so that a test can set it. Safe from several threads.
namespace exworks::cli::web {

using Clock = std::chrono::steady_clock;

struct Session {
  std::string cookie, token;
};

/// A bucket that fills with time: so many at once, so many a second on the average.
class Allowance {
 public:
  Allowance(double a_second, double at_once) : a_second_(a_second), at_once_(at_once), left_(at_once) {}
  bool take(Clock::time_point now);
  bool full(Clock::time_point now) const;

 private:
  double a_second_, at_once_, left_;
  Clock::time_point then_{};
};

class SessionStore {
 public:
  /// Called with each new code for the console, from the thread that used the one before.
  using Announce = std::function<void(const std::string& code)>;
  explicit SessionStore(Announce announce) : announce_(std::move(announce)) {}

  /// Makes the first code for the console.
  void open();
  /// A code for one more device, good for ten minutes. Nothing is returned when many are out already.
  std::optional<std::string> invite(Clock::time_point now);

  struct Answer {
    std::optional<Session> session;
    int wait_seconds = 0;  ///< over 0: too many wrong codes; this one was not looked at
  };
  /// Trades a code for a session. After three wrong codes from an address each further one doubles its wait, up to a minute; a
  /// hundred wrong ones in a minute, from wherever, make everybody wait.
  Answer join(const std::string& code, const std::string& from, Clock::time_point now);

  /// The session of this cookie.
  std::optional<Session> session(const std::string& cookie, Clock::time_point now);

  /// May `who` (a cookie, or an address without one) ask once more? False: too fast.
  bool may_ask(const std::string& who, bool joined, Clock::time_point now);

 private:
  struct Kept {
    Session session;
    Clock::time_point used;
  };
  struct Wrong {
    int count = 0;
    Clock::time_point until{}, last{};
  };
  bool spend(const std::string& code, Clock::time_point now, bool& of_console);
  int wait_of(const std::string& from, Clock::time_point now);
  void note_wrong(const std::string& from, Clock::time_point now);
  Session admit(Clock::time_point now);
  void forget_old(Clock::time_point now);

  Announce announce_;
  std::mutex mutex_;
  std::string console_code_;
  std::vector<std::pair<std::string, Clock::time_point>> invited_;  ///< code, until
  std::map<std::string, Kept> sessions_;                            ///< by cookie
  std::map<std::string, Wrong> wrong_;                              ///< by address
  std::vector<Clock::time_point> wrong_lately_;
  std::map<std::string, Allowance> asked_;
};

}  // namespace exworks::cli::web
