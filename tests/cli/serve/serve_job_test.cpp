#include <algorithm>
#include <atomic>
#include <mutex>
#include <set>
#include <thread>

#include "serve/client.hpp"
#include "serve/soak.hpp"
#include "support.hpp"

/// Inspecting with phones: what was answered is kept, once, whatever happens to the line or the computer.
using namespace exworks::serve_test;
using exworks::test::rules_dir;
using exworks::test::TemporaryFolder;

namespace {

std::string begin(Phone& phone, const std::string& family = "aldermoor-carrier") {
  const Reply made = phone.post("/api/jobs", {{"tap", tap_name()}, {"family", family}, {"fields", {{"name", "a van"}, {"date", "2026-11-20"}}}});
  REQUIRE(made.status == 200);
  return std::to_string(made.json().at("job").get<std::int64_t>());
}

Reply send(Phone& phone, const std::string& job, const Json& entry, std::int64_t since = 0) {
  return phone.post("/api/jobs/" + job + "/entries", {{"by", "ab"}, {"since", since}, {"entries", Json::array({entry})}});
}

std::string value_of(const Json& entries, const std::string& feature) {
  for (const Json& e : entries) {
    if (e.at("kind") == "observed" && e.at("name") == feature && e.at("fields").is_object()) return e.at("fields").at("value").get<std::string>();
  }
  return "";
}

}  // namespace

TEST_CASE("an answer moves the odds, and why is told", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone phone(served);
  const std::string job = begin(phone);
  CHECK(phone.get("/api/jobs/" + job).json().at("now").is_null());
  const Reply told = send(phone, job, tap(tap_name(), "headlamp-position", "high"));
  REQUIRE(told.status == 200);
  const Json now = told.json().at("now");
  CHECK_FALSE(now.at("said").empty());
  CHECK(now.at("odds").at("variant").at("p").get<double>() > 0);
  // The same as the command says of the same inspection.
  const auto shown = ::exworks::test::exworks("job show " + job + " --json --book " + (folder.path() / "book.db").string());
  CHECK(shown.exit_code == 0);
  CHECK(shown.out.find("\"high\"") != std::string::npos);
  const Json why = phone.get("/api/jobs/" + job + "/why/headlamp-position").json();
  CHECK(why.at("with").at("p") == now.at("odds").at("variant").at("p"));
  CHECK_FALSE(why.at("facts").empty());
  CHECK_FALSE(why.at("sources").empty());
  CHECK(why.at("history").size() == 1);
  const Json next = phone.get("/api/jobs/" + job + "/next?for=both&most=5").json();
  REQUIRE_FALSE(next.at("checks").empty());
  CHECK(next.at("checks").size() <= 5);
  for (const Json& c : next.at("checks")) {
    CHECK(c.at("feature") != "headlamp-position");
    CHECK_FALSE(c.at("reason").get<std::string>().empty());
  }
  const Json review = phone.get("/api/jobs/" + job + "/review").json();
  std::size_t counted = 0;
  for (const Json& p : review.at("places")) counted += p.at("original").get<std::size_t>() + p.at("later").get<std::size_t>() + p.at("uncertain").get<std::size_t>();
  CHECK(counted == 1);
  // A feature has one shape, and one verdict, in the command and on the phone.
  const auto assessed = ::exworks::test::exworks("assess --json --book " + (folder.path() / "book.db").string() + " " + job);
  CHECK(assessed.exit_code == 0);
  Json on_phone;
  for (const Json& p : review.at("places")) {
    for (const Json& f : p.at("features")) on_phone.push_back(f);
  }
  CHECK(on_phone == Json::parse(assessed.out).at("features"));
  CHECK(review.at("score") == Json::parse(assessed.out).at("score"));
  // Taken back: as before.
  Json back = tap(tap_name(), "headlamp-position", "high");
  back["fields"] = nullptr;
  CHECK(send(phone, job, back).json().at("now").is_null());
  CHECK(phone.get("/api/jobs/" + job + "/history").json().at("entries").back().at("fields").is_null());
  CHECK(served.end() == 0);
}

TEST_CASE("words that the pack doesn't know are refused at the vehicle, and nothing is stored", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone phone(served);
  const std::string job = begin(phone);
  const auto before = phone.get("/api/jobs/" + job).json().at("change");
  CHECK(send(phone, job, tap(tap_name(), "headlamp-position", "lowest")).status == 400);
  CHECK(send(phone, job, tap(tap_name(), "no-such-feature", "low")).status == 400);
  CHECK(send(phone, job, tap("short", "headlamp-position", "low")).status == 400);
  Json measure = tap(tap_name(), "headlamp-position", "low");
  measure["fields"] = {{"measure", "12"}, {"unit", "mm"}};
  CHECK(send(phone, job, measure).status == 400);
  Json bell = tap(tap_name(), "headlamp-position", "low");
  bell["fields"]["note"] = "a\u0007b";
  CHECK(send(phone, job, bell).status == 400);
  CHECK(phone.post_bytes("/api/jobs/" + job + "/entries", "application/json", "{\"entries\":[").status == 400);
  CHECK(phone.post_bytes("/api/jobs/" + job + "/entries", "application/json", std::string(60000, '[')).status == 400);
  CHECK(phone.get("/api/jobs/" + job).json().at("change") == before);
}

TEST_CASE("the same tap twice is stored once, also after a restart", "[serve]") {
  TemporaryFolder folder;
  const auto book = folder.path() / "book.db";
  const std::string name = tap_name(), job_tap = tap_name();
  const Json first = tap(name, "headlamp-position", "low");
  std::string job;
  {
    Served served(EXWORKS_BINARY, book, rules_dir());
    Phone phone(served);
    const Json making = {{"tap", job_tap}, {"family", "aldermoor-carrier"}};
    const auto made = phone.post("/api/jobs", making).json().at("job");
    CHECK(phone.post("/api/jobs", making).json().at("job") == made);
    job = std::to_string(made.get<std::int64_t>());
    CHECK(send(phone, job, first).json().at("saved") == Json::array({name}));
    CHECK(send(phone, job, first).json().at("saved") == Json::array({name}));
    // The name of one answer can't be used for another.
    CHECK(send(phone, job, tap(name, "rear-lamps", "small-glass")).status == 400);
    CHECK(served.end() == 0);
  }
  Served served(EXWORKS_BINARY, book, rules_dir());
  Phone phone(served);
  CHECK(phone.post("/api/jobs", {{"tap", job_tap}, {"family", "aldermoor-carrier"}}).json().at("job").get<std::int64_t>() == std::stoll(job));
  // Another answered since; the late copy of the first tap changes nothing.
  REQUIRE(send(phone, job, tap(tap_name(), "headlamp-position", "high")).status == 200);
  const Reply late = send(phone, job, first);
  CHECK(late.json().at("saved") == Json::array({name}));
  CHECK(value_of(phone.get("/api/jobs/" + job).json().at("entries"), "headlamp-position") == "high");
  const Json history = phone.get("/api/jobs/" + job + "/history").json().at("entries");
  CHECK(std::count_if(history.begin(), history.end(), [&](const Json& e) { return e.at("tap") == name; }) == 1);
}

TEST_CASE("two phones on one job merge, and a clash is told to the later one", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone anna(served), ben(served);
  const std::string job = begin(anna);
  const auto start = ben.get("/api/jobs/" + job).json().at("change").get<std::int64_t>();
  REQUIRE(send(anna, job, tap(tap_name(), "headlamp-position", "low")).status == 200);
  const Reply bens = send(ben, job, tap(tap_name(), "rocker-cover", "other"), start);
  REQUIRE(bens.status == 200);
  // With his own answer comes what she found.
  CHECK(value_of(bens.json().at("entries"), "headlamp-position") == "low");
  CHECK(bens.json().at("conflicts").empty());
  const auto known = bens.json().at("change").get<std::int64_t>();
  CHECK(anna.get("/api/jobs/" + job + "?since=" + std::to_string(known)).json().at("entries").empty());
  // He saw hers and corrects it: no clash. She had not seen his: a clash, told with what he said; hers, the later, holds.
  REQUIRE(send(ben, job, tap(tap_name(), "headlamp-position", "high", known)).json().at("conflicts").empty());
  const Reply clash = send(anna, job, tap(tap_name(), "headlamp-position", "other", known));
  REQUIRE(clash.json().at("conflicts").size() == 1);
  CHECK(clash.json().at("conflicts")[0].at("theirs").at("fields").at("value") == "high");
  CHECK(value_of(ben.get("/api/jobs/" + job).json().at("entries"), "headlamp-position") == "other");
  const Json history = ben.get("/api/jobs/" + job + "/history").json().at("entries");
  CHECK(std::count_if(history.begin(), history.end(), [](const Json& e) { return e.at("name") == "headlamp-position"; }) == 3);
  // An answer meant for the same job number of another book is not taken.
  const Reply other = anna.post("/api/jobs/" + job + "/entries", {{"uid", "of another book"}, {"entries", Json::array({tap(tap_name(), "headlamp-position", "low")})}});
  CHECK(other.status == 404);
}

TEST_CASE("another exworks command on the same book is seen", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone phone(served);
  const std::string job = begin(phone);
  const auto change = phone.get("/api/jobs/" + job).json().at("change").get<std::int64_t>();
  CHECK(::exworks::test::exworks("job set " + job + " headlamp-position=low --book " + (folder.path() / "book.db").string()).exit_code == 0);
  const Json told = phone.get("/api/jobs/" + job + "?since=" + std::to_string(change)).json();
  CHECK(value_of(told.at("entries"), "headlamp-position") == "low");
  CHECK(told.at("now").at("features").contains("headlamp-position"));
}

TEST_CASE("a family is guessed from what anybody can see", "[serve]") {
  TemporaryFolder folder;
  Served served(EXWORKS_BINARY, folder.path() / "book.db", rules_dir());
  Phone phone(served);
  const auto best = [&](const Json& answers, const std::string& number) { return phone.post("/api/guess", {{"answers", answers}, {"number", number}}).json().at("families")[0]; };
  CHECK_FALSE(phone.get("/api/families").json().at("questions").empty());
  // Common practice, no source: the hallmarks that every mechanic knows.
  CHECK(best({{"engine-place", "rear"}, {"cooling", "air"}}, "").at("id") == "volkswagen-type1");
  CHECK(best({{"drive", "four"}, {"body-kind", "utility"}}, "").at("id") == "willys-4x4");
  CHECK(best({{"engine-place", "front"}, {"body-kind", "estate"}, {"drive", "rear"}}, "").at("id") != "volkswagen-type1");
  CHECK(best({{"body-kind", "open-two"}, {"engine-place", "front"}}, "").at("id") == "mgb");
  // The form of 1969 to 1979 as published (rules/mgb/numbers.xml cites RIM and others): no other pack's forms read it.
  CHECK(best(Json::object(), "GHN5UB 241164 G").at("id") == "mgb");
}

TEST_CASE("kill -9 in mid-traffic loses no answer that was acknowledged", "[serve]") {
  TemporaryFolder folder;
  const auto book = folder.path() / "book.db";
  std::mutex mutex;
  std::vector<std::string> acknowledged;
  std::string job;
  {
    Served served(EXWORKS_BINARY, book, rules_dir());
    std::vector<std::unique_ptr<Phone>> phones;
    for (int i = 0; i < 4; ++i) phones.push_back(std::make_unique<Phone>(served));
    job = begin(*phones.front());
    std::atomic<bool> over{false};
    std::vector<std::thread> threads;
    for (auto& phone : phones) {
      threads.emplace_back([&] {
        while (!over) {
          const std::string name = tap_name();
          try {
            const Reply r = send(*phone, job, tap(name, "headlamp-position", name.back() % 2 == 0 ? "low" : "high"));
            const std::lock_guard lock(mutex);
            if (r.status == 200) acknowledged.push_back(name);
          } catch (const std::exception&) {
            return;  // the computer is gone
          }
        }
      });
    }
    for (;;) {
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
      const std::lock_guard lock(mutex);
      if (acknowledged.size() >= 40) break;
    }
    served.kill();
    over = true;
    for (auto& t : threads) t.join();
  }
  Served served(EXWORKS_BINARY, book, rules_dir());
  Phone phone(served);
  const Json history = phone.get("/api/jobs/" + job + "/history").json().at("entries");
  std::set<std::string> kept;
  for (const Json& e : history) kept.insert(e.at("tap").get<std::string>());
  for (const std::string& name : acknowledged) CHECK(kept.contains(name));
  CHECK(::exworks::test::exworks("book verify --book " + book.string()).exit_code == 0);
}

TEST_CASE("twenty phones for five seconds: no error, nothing lost", "[serve][slow]") {
  TemporaryFolder folder;
  const Soak soak = run_soak(EXWORKS_BINARY, folder.path() / "book.db", rules_dir(), 20, 5, 5);
  INFO(soak.first_trouble);
  CHECK(soak.errors == 0);
  CHECK(soak.lost == 0);
  CHECK(soak.twice == 0);
  CHECK(soak.edits >= 20);
  CHECK(soak.exit_code == 0);
}
