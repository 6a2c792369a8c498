#include "base/file.hpp"
#include "serve/client.hpp"
#include "support.hpp"

/// What the server notes of its own work: enough to see what went wrong, and nothing of a vehicle or a person.
using namespace exworks::serve_test;
using exworks::read_file;
using exworks::test::rules_dir;
using exworks::test::TemporaryFolder;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("The server's log says what was asked and refused, and nothing of the vehicle or its people", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone phone(served);
  const Reply made = phone.post("/api/jobs", {{"tap", tap_name()}, {"family", "aldermoor-carrier"}, {"fields", {{"name", "Harriet Quill's van"}, {"reference", "QZX 417"}}}});
  REQUIRE(made.status == 200);
  const std::string job = std::to_string(made.json().at("job").get<std::int64_t>());
  const auto send = [&](const Json& entry) { return phone.post("/api/jobs/" + job + "/entries", {{"by", "hq"}, {"since", 0}, {"entries", Json::array({entry})}}); };
  Json noted = tap(tap_name(), "headlamp-position", "high");
  noted["fields"]["note"] = "sold to Ignatius Pell";
  CHECK(send(noted).status == 200);
  CHECK(send({{"kind", "number"}, {"name", "chassis-number"}, {"tap", tap_name()}, {"fields", {{"text", "AC2 V 31205 K"}}}}).status == 200);
  CHECK(send(tap(tap_name(), "headlamp-position", "Ignatius-Pell")).status == 400);
  CHECK(phone.get("/api/jobs/" + job + "/why/headlamp-position").status == 200);
  CHECK(phone.get("/api/jobs/QZX417").status >= 400);
  CHECK(served.end() == 0);
  const std::string log = read_file((folder.path() / "exworks" / "serve.log").string());
  CHECK(holds(log, " info serving port=" + std::to_string(served.port()) + " lan=0 packs="));
  CHECK(holds(log, " info a device joined"));
  CHECK(holds(log, " info request method=POST address=jobs/*/entries status=200 ms="));
  CHECK(holds(log, " warning refused method=POST address=jobs/*/entries status=400 why=not understood ms="));
  CHECK(holds(log, " info request method=GET address=jobs/*/why/* status=200 ms="));
  CHECK(holds(log, " info finished exit=0 ms="));
  for (const char* secret : {"Harriet", "Quill", "QZX", "417", "Ignatius", "Pell", "31205", "AC2", "hq", "book.db"}) {
    INFO(secret);
    CHECK_FALSE(holds(log, secret));
  }
}
