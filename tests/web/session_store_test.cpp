#include <catch2/catch.hpp>

#include "web/sessions/session_store.hpp"
#include "web/sessions/secret.hpp"

/// Codes, sessions and allowances with a clock of the test's own. What is expected follows OWASP's Authentication notes (single use, throttling
/// that grows) and NIST SP 800-63B 5.2.2 (limit failed attempts); the figures are the ones that session_store.hpp states.
using namespace exworks::cli::web;
using namespace std::chrono_literals;

namespace {

struct Hall {
  std::vector<std::string> shown;
  SessionStore store{[this](const std::string& code) { shown.push_back(code); }};
  Clock::time_point now{1000h};
  Hall() { store.open(); }
};

}  // namespace

TEST_CASE("each code of the console admits one device and is followed by another", "[serve][store]") {
  Hall hall;
  REQUIRE(hall.shown.size() == 1);
  CHECK(hall.store.join(hall.shown[0], "a", hall.now).session.has_value());
  REQUIRE(hall.shown.size() == 2);
  CHECK(hall.shown[0] != hall.shown[1]);
  CHECK_FALSE(hall.store.join(hall.shown[0], "a", hall.now).session.has_value());
  // As a person types it.
  std::string typed = " " + hall.shown[1].substr(0, 4) + " " + hall.shown[1].substr(5);
  for (char& c : typed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  CHECK(hall.store.join(typed, "b", hall.now).session.has_value());
  CHECK_FALSE(hall.store.join("", "c", hall.now).session.has_value());
}

TEST_CASE("an invitation runs out", "[serve][store]") {
  Hall hall;
  const auto early = hall.store.invite(hall.now), late = hall.store.invite(hall.now);
  CHECK(hall.store.join(*early, "a", hall.now + 9min).session.has_value());
  CHECK_FALSE(hall.store.join(*late, "a", hall.now + 11min).session.has_value());
}

TEST_CASE("wrong codes cost more and more time, and one's neighbour nothing", "[serve][store]") {
  Hall hall;
  for (int i = 0; i < 3; ++i) CHECK(hall.store.join("WRONG", "a", hall.now).wait_seconds == 0);
  int before = 0;
  for (int i = 0; i < 5; ++i) {
    const int wait = hall.store.join(hall.shown.back(), "a", hall.now).wait_seconds;
    CHECK(wait > before);
    before = wait;
    hall.now += std::chrono::seconds(wait);
    CHECK(hall.store.join("WRONG", "a", hall.now).wait_seconds == 0);
  }
  CHECK(hall.store.join(hall.shown.back(), "b", hall.now).session.has_value());
  CHECK(hall.store.join(hall.shown.back(), "a", hall.now).wait_seconds <= 61);
  CHECK(hall.store.join(hall.shown.back(), "a", hall.now + 2min).session.has_value());
}

TEST_CASE("a hundred wrong codes in a minute, from wherever, make everybody wait", "[serve][store]") {
  Hall hall;
  for (int i = 0; i < 100; ++i) hall.store.join("WRONG", "address " + std::to_string(i), hall.now);
  CHECK(hall.store.join(hall.shown.back(), "another", hall.now).wait_seconds > 0);
  CHECK(hall.store.join(hall.shown.back(), "another", hall.now + 2min).session.has_value());
}

TEST_CASE("a session that nobody uses ends", "[serve][store]") {
  Hall hall;
  const auto s = hall.store.join(hall.shown.back(), "a", hall.now).session;
  CHECK(hall.store.session(s->cookie, hall.now + 23h).has_value());
  CHECK(hall.store.session(s->cookie, hall.now + 46h).has_value());
  CHECK_FALSE(hall.store.session(s->cookie, hall.now + 71h).has_value());
  CHECK_FALSE(hall.store.session("", hall.now).has_value());
}

TEST_CASE("who asks without end is told to slow down, and may go on later", "[serve][store]") {
  Hall hall;
  int taken = 0;
  while (taken < 10'000 && hall.store.may_ask("a", true, hall.now)) ++taken;
  CHECK(taken == 300);
  CHECK(hall.store.may_ask("b", true, hall.now));
  CHECK(hall.store.may_ask("a", true, hall.now + 1s));
}

TEST_CASE("secrets differ and have the length that was meant", "[serve][store]") {
  CHECK(random_token().size() == 64);
  CHECK(random_token() != random_token());
  CHECK(random_code().size() == 9);
  CHECK(plain_code("k7qm-2xpd ") == "K7QM2XPD");
  CHECK(same_secret("abc", "abc"));
  CHECK_FALSE(same_secret("abc", "abd"));
  CHECK_FALSE(same_secret("abc", "ab"));
}
