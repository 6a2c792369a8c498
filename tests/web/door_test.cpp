#include <catch2/catch.hpp>

#include "web/sessions/door.hpp"
#include "web/sessions/secret.hpp"

/// Codes, sessions and allowances with a clock of the test's own. What is expected follows OWASP's Authentication notes (single use, throttling
/// that grows) and NIST SP 800-63B 5.2.2 (limit failed attempts); the figures are the ones that door.hpp states.
using namespace exworks::cli::web;
using namespace std::chrono_literals;

namespace {

struct Hall {
  std::vector<std::string> shown;
  Door door{[this](const std::string& code) { shown.push_back(code); }};
  Clock::time_point now{1000h};
  Hall() { door.open(); }
};

}  // namespace

TEST_CASE("each code of the console admits one device and is followed by another", "[serve][door]") {
  Hall hall;
  REQUIRE(hall.shown.size() == 1);
  CHECK(hall.door.join(hall.shown[0], "a", hall.now).session.has_value());
  REQUIRE(hall.shown.size() == 2);
  CHECK(hall.shown[0] != hall.shown[1]);
  CHECK_FALSE(hall.door.join(hall.shown[0], "a", hall.now).session.has_value());
  // As a person types it.
  std::string typed = " " + hall.shown[1].substr(0, 4) + " " + hall.shown[1].substr(5);
  for (char& c : typed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  CHECK(hall.door.join(typed, "b", hall.now).session.has_value());
  CHECK_FALSE(hall.door.join("", "c", hall.now).session.has_value());
}

TEST_CASE("an invitation runs out", "[serve][door]") {
  Hall hall;
  const auto early = hall.door.invite(hall.now), late = hall.door.invite(hall.now);
  CHECK(hall.door.join(*early, "a", hall.now + 9min).session.has_value());
  CHECK_FALSE(hall.door.join(*late, "a", hall.now + 11min).session.has_value());
}

TEST_CASE("wrong codes cost more and more time, and one's neighbour nothing", "[serve][door]") {
  Hall hall;
  for (int i = 0; i < 3; ++i) CHECK(hall.door.join("WRONG", "a", hall.now).wait_seconds == 0);
  int before = 0;
  for (int i = 0; i < 5; ++i) {
    const int wait = hall.door.join(hall.shown.back(), "a", hall.now).wait_seconds;
    CHECK(wait > before);
    before = wait;
    hall.now += std::chrono::seconds(wait);
    CHECK(hall.door.join("WRONG", "a", hall.now).wait_seconds == 0);
  }
  CHECK(hall.door.join(hall.shown.back(), "b", hall.now).session.has_value());
  CHECK(hall.door.join(hall.shown.back(), "a", hall.now).wait_seconds <= 61);
  CHECK(hall.door.join(hall.shown.back(), "a", hall.now + 2min).session.has_value());
}

TEST_CASE("a hundred wrong codes in a minute, from wherever, make everybody wait", "[serve][door]") {
  Hall hall;
  for (int i = 0; i < 100; ++i) hall.door.join("WRONG", "address " + std::to_string(i), hall.now);
  CHECK(hall.door.join(hall.shown.back(), "another", hall.now).wait_seconds > 0);
  CHECK(hall.door.join(hall.shown.back(), "another", hall.now + 2min).session.has_value());
}

TEST_CASE("a session that nobody uses ends", "[serve][door]") {
  Hall hall;
  const auto s = hall.door.join(hall.shown.back(), "a", hall.now).session;
  CHECK(hall.door.session(s->cookie, hall.now + 23h).has_value());
  CHECK(hall.door.session(s->cookie, hall.now + 46h).has_value());
  CHECK_FALSE(hall.door.session(s->cookie, hall.now + 71h).has_value());
  CHECK_FALSE(hall.door.session("", hall.now).has_value());
}

TEST_CASE("who asks without end is told to slow down, and may go on later", "[serve][door]") {
  Hall hall;
  int taken = 0;
  while (taken < 10'000 && hall.door.may_ask("a", true, hall.now)) ++taken;
  CHECK(taken == 300);
  CHECK(hall.door.may_ask("b", true, hall.now));
  CHECK(hall.door.may_ask("a", true, hall.now + 1s));
}

TEST_CASE("secrets differ and have the length that was meant", "[serve][door]") {
  CHECK(random_token().size() == 64);
  CHECK(random_token() != random_token());
  CHECK(random_code().size() == 9);
  CHECK(plain_code("k7qm-2xpd ") == "K7QM2XPD");
  CHECK(same_secret("abc", "abc"));
  CHECK_FALSE(same_secret("abc", "abd"));
  CHECK_FALSE(same_secret("abc", "ab"));
}
