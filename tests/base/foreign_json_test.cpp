#include "base/foreign_json.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

/// JSON from elsewhere nests as deep as it likes (RFC 8259, section 9, lets a parser set limits).
using namespace exworks;

namespace {

std::string nested(int depth) { return std::string(static_cast<std::size_t>(depth), '[') + std::string(static_cast<std::size_t>(depth), ']'); }

}  // namespace

TEST_CASE("JSON that nests deeper than anything of ours is refused before it is built", "[json]") {
  CHECK(parse_foreign(nested(deepest_json)).is_array());
  CHECK(parse_foreign(nested(deepest_json + 1)).is_discarded());
  CHECK(parse_foreign_ordered(nested(2'000'000)).is_discarded());
  std::string objects;
  for (int i = 0; i < 600'000; ++i) objects += "{\"a\":";
  CHECK(parse_foreign(objects).is_discarded());
}

TEST_CASE("Brackets within text don't count, and what is no JSON is discarded", "[json]") {
  CHECK(parse_foreign("[\"" + std::string(1000, '[') + "\\\"" + std::string(1000, '{') + "\"]").is_array());
  CHECK(parse_foreign("[1,").is_discarded());
  CHECK(parse_foreign("").is_discarded());
}
