#include "web/http/http_server.hpp"

#include <stdexcept>

#include "support.hpp"

using namespace exworks::cli::web;

TEST_CASE("An address holds no more connections than it may, and gives them back however they end", "[serve]") {
  ConnectionLimit limit(2);
  {
    const ConnectionLimit::Place first(limit, "192.0.2.1"), second(limit, "192.0.2.1"), third(limit, "192.0.2.1"), other(limit, "192.0.2.2");
    CHECK((first.had() && second.had() && other.had()));
    CHECK_FALSE(third.had());
    CHECK(limit.all() == 3);
  }
  CHECK(limit.all() == 0);
  for (int i = 0; i < 5; ++i) {
    CHECK_THROWS(([&] {
      const ConnectionLimit::Place place(limit, "192.0.2.1");
      CHECK(place.had());
      throw std::runtime_error("a fault in the midst of a request");
    }()));
  }
  CHECK(limit.all() == 0);
}

TEST_CASE("A server that is ended before it serves doesn't begin, and the end doesn't wait for it", "[serve]") {
  HttpServer server;
  REQUIRE(server.bind_address("127.0.0.1", 0) > 0);
  server.end();
  server.serve();
  CHECK_FALSE(server.is_running());
  server.end();  // once more does no harm
}
