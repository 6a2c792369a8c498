#include "web/sessions/session_store.hpp"

#include <algorithm>

#include "web/sessions/secret.hpp"

namespace exworks::cli::web {

using namespace std::chrono_literals;

namespace {

// Judgement: more than a workshop needs, and few enough that nothing grows without end.
constexpr std::size_t most_sessions = 200, most_invited = 20, most_addresses = 4096, most_wrong_a_minute = 100;
constexpr auto idle_session = 24h;
constexpr auto invitation = 10min;
constexpr int free_mistakes = 3;

}  // namespace

bool Allowance::take(Clock::time_point now) {
  const std::chrono::duration<double> passed = now - then_;
  left_ = std::min(at_once_, left_ + a_second_ * passed.count());
  then_ = now;
  if (left_ < 1) return false;
  left_ -= 1;
  return true;
}

bool Allowance::full(Clock::time_point now) const {
  const std::chrono::duration<double> passed = now - then_;
  return left_ + a_second_ * passed.count() >= at_once_;
}

void SessionStore::open() {
  std::string code;
  {
    const std::lock_guard lock(mutex_);
    console_code_ = code = random_code();
  }
  announce_(code);
}

std::optional<std::string> SessionStore::invite(Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  std::erase_if(invited_, [&](const auto& i) { return i.second < now; });
  if (invited_.size() >= most_invited) return std::nullopt;
  invited_.emplace_back(random_code(), now + invitation);
  return invited_.back().first;
}

/// Uses up the code, if it is one that is out.
bool SessionStore::spend(const std::string& code, Clock::time_point now, bool& of_console) {
  const std::string plain = plain_code(code);
  if (!console_code_.empty() && same_secret(plain, plain_code(console_code_))) {
    console_code_.clear();
    return of_console = true;
  }
  const auto at = std::find_if(invited_.begin(), invited_.end(), [&](const auto& i) { return i.second >= now && same_secret(plain, plain_code(i.first)); });
  if (at == invited_.end()) return false;
  invited_.erase(at);
  return true;
}

int SessionStore::wait_of(const std::string& from, Clock::time_point now) {
  std::erase_if(wrong_lately_, [&](Clock::time_point t) { return t + 1min < now; });
  const auto seconds = [&](Clock::time_point until) { return 1 + static_cast<int>(std::chrono::duration_cast<std::chrono::seconds>(until - now).count()); };
  if (wrong_lately_.size() >= most_wrong_a_minute) return seconds(wrong_lately_.front() + 1min);
  const auto at = wrong_.find(from);
  return at != wrong_.end() && at->second.until > now ? seconds(at->second.until) : 0;
}

void SessionStore::note_wrong(const std::string& from, Clock::time_point now) {
  wrong_lately_.push_back(now);
  Wrong& wrong = wrong_[from];
  wrong.last = now;
  const int over = ++wrong.count - free_mistakes;
  if (over >= 0) wrong.until = now + std::min<Clock::duration>(1min, 2s * (1 << std::min(over, 5)));
}

Session SessionStore::admit(Clock::time_point now) {
  forget_old(now);
  const Session s{random_token(), random_token()};
  sessions_[s.cookie] = {s, now};
  return s;
}

/// Keeps the tables small: what is idle goes, then what was idle longest.
void SessionStore::forget_old(Clock::time_point now) {
  std::erase_if(sessions_, [&](const auto& s) { return s.second.used + idle_session < now; });
  if (sessions_.size() >= most_sessions) {
    sessions_.erase(std::min_element(sessions_.begin(), sessions_.end(), [](const auto& a, const auto& b) { return a.second.used < b.second.used; }));
  }
  std::erase_if(wrong_, [&](const auto& w) { return w.second.last + 1h < now; });
  std::erase_if(asked_, [&](const auto& a) { return a.second.full(now); });
}

SessionStore::Answer SessionStore::join(const std::string& code, const std::string& from, Clock::time_point now) {
  Answer out;
  bool of_console = false;
  {
    const std::lock_guard lock(mutex_);
    out.wait_seconds = wait_of(from, now);
    if (out.wait_seconds > 0) return out;
    if (!spend(code, now, of_console)) {
      if (wrong_.size() >= most_addresses) forget_old(now);
      note_wrong(from, now);
      return out;
    }
    wrong_.erase(from);
    out.session = admit(now);
  }
  if (of_console) open();
  return out;
}

std::optional<Session> SessionStore::session(const std::string& cookie, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  const auto at = sessions_.find(cookie);
  if (at == sessions_.end() || at->second.used + idle_session < now) return std::nullopt;
  at->second.used = now;
  return at->second.session;
}

bool SessionStore::may_ask(const std::string& who, bool joined, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  if (asked_.size() >= most_addresses) forget_old(now);
  return asked_.try_emplace(who, joined ? Allowance(50, 300) : Allowance(20, 200)).first->second.take(now);
}

}  // namespace exworks::cli::web
