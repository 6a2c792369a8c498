#include <memory>

#include "serve/client.hpp"
#include "support.hpp"

/// What a stranger on the network may try. The rules that are checked: RFC 6265 (cookies), RFC 6454 (origins), RFC 9110 (status
/// codes), and OWASP's Cross-Site Request Forgery and DNS rebinding notes; that each attack is answered with no.
using namespace exworks::serve_test;
using exworks::test::rules_dir;
using exworks::test::TemporaryFolder;

namespace {

struct Context {
  TemporaryFolder folder;
  Served served{EXWORKS_BINARY, folder.path() / "book.db", rules_dir()};

  std::string head(const std::string& line, const std::string& more = "", const std::string& host = "") {
    return line + " HTTP/1.1\r\nHost: " + (host.empty() ? served.host() : host) + "\r\n" + more + "\r\n";
  }
  Reply raw(const std::string& line, const std::string& more = "", const std::string& host = "") { return ask_raw(served.port(), head(line, more, host)); }
};

std::int64_t new_job(Phone& phone) {
  const Reply made = phone.post("/api/jobs", {{"tap", tap_name()}, {"family", "aldermoor-carrier"}, {"fields", {{"name", "a van"}}}});
  REQUIRE(made.status == 200);
  return made.json().at("job").get<std::int64_t>();
}

}  // namespace

TEST_CASE("without a cookie there is nothing but the way to join", "[serve]") {
  Context context;
  for (const char* path : {"/api/session", "/api/families", "/api/jobs", "/api/jobs/1", "/photo/0"}) CHECK(context.raw(std::string("GET ") + path).status == 401);
  const Reply page = context.raw("GET /");
  CHECK(page.status == 303);
  CHECK(page.headers.at("location") == "/join");
  CHECK(context.raw("POST /api/jobs", "Content-Type: application/json\r\nContent-Length: 2\r\n").status == 401);
  CHECK(context.raw("GET /api/jobs", "Cookie: exworks-" + std::to_string(context.served.port()) + "=" + std::string(64, '0') + "\r\n").status == 401);
}

TEST_CASE("a code admits one device, once, and its cookie keeps to itself", "[serve]") {
  Context context;
  const std::string code = context.served.code();
  // A look ahead by a mail program or a chat (HEAD) uses nothing up.
  CHECK_FALSE(context.raw("HEAD /join?code=" + code).headers.contains("set-cookie"));
  const Reply first = context.raw("GET /join?code=" + code);
  CHECK(first.status == 303);
  const std::string cookie = first.headers.at("set-cookie");
  CHECK(cookie.find("HttpOnly") != std::string::npos);
  CHECK(cookie.find("SameSite=Strict") != std::string::npos);
  CHECK(cookie.find("Path=/") != std::string::npos);
  const Reply again = context.raw("GET /join?code=" + code);
  CHECK_FALSE(again.headers.contains("set-cookie"));
  CHECK(again.headers.at("location") == "/join#wrong");
  CHECK_NOTHROW(Phone(context.served));  // the console shows the next one
}

TEST_CASE("wrong codes are slowed, and then even the right one waits", "[serve]") {
  Context context;
  for (int i = 0; i < 4; ++i) CHECK_FALSE(context.raw("GET /join?code=AAAA-AAA" + std::to_string(i)).headers.contains("set-cookie"));
  const Reply right = context.raw("GET /join?code=" + context.served.code());
  CHECK_FALSE(right.headers.contains("set-cookie"));
  CHECK(std::stoi(right.headers.at("retry-after")) >= 1);
}

TEST_CASE("the token of another session doesn't open this one", "[serve]") {
  Context context;
  Phone anna(context.served), ben(context.served);
  std::swap(anna.token, ben.token);
  CHECK(anna.post("/api/jobs", {{"tap", tap_name()}, {"family", "aldermoor-carrier"}}).status == 403);
  anna.token.clear();
  CHECK(anna.post("/api/jobs", {{"tap", tap_name()}, {"family", "aldermoor-carrier"}}).status == 403);
  CHECK(anna.get("/api/jobs").json().at("jobs").empty());
}

TEST_CASE("foreign names and foreign pages get nothing", "[serve]") {
  Context context;
  Phone phone(context.served);
  const std::string cookie = "Cookie: " + phone.cookie + "\r\n", port = std::to_string(context.served.port());
  // DNS rebinding: a name of the attacker's that was made to point here.
  for (const std::string& host : {"evil.example:" + port, std::string("evil.example"), "127.0.0.1.evil.example:" + port, "192.168.0.1:" + port, std::string("127.0.0.1:1")}) CHECK(context.raw("GET /api/jobs", cookie, host).status == 421);
  CHECK(context.raw("GET /api/jobs", cookie, "localhost:" + port).status == 200);
  CHECK(ask_raw(context.served.port(), "GET /api/jobs HTTP/1.1\r\n" + cookie + "\r\n").status == 421);
  CHECK(ask_raw(context.served.port(), "GET /api/jobs HTTP/1.1\r\nHost: " + context.served.host() + "\r\nHost: evil.example\r\n" + cookie + "\r\n").status == 400);
  const std::string post = cookie + "X-Exworks-Token: " + phone.token + "\r\nContent-Type: application/json\r\nContent-Length: 2\r\n";
  for (const std::string& origin : {std::string("http://evil.example"), std::string("null"), "https://127.0.0.1:" + port, std::string("http://127.0.0.1:1")}) CHECK(context.raw("POST /api/invite", post + "Origin: " + origin + "\r\n").status == 403);
  CHECK(context.raw("POST /api/invite", post + "Sec-Fetch-Site: cross-site\r\n").status == 403);
  // A form of another site can send this type without asking first; ours is asked for.
  CHECK(context.raw("POST /api/invite", cookie + "X-Exworks-Token: " + phone.token + "\r\nContent-Type: text/plain\r\nContent-Length: 2\r\n").status == 415);
}

TEST_CASE("no path leads outside the book and the pages", "[serve]") {
  Context context;
  Phone phone(context.served);
  for (const char* path : {"/assets/../../../../etc/passwd", "/assets/%2e%2e%2f%2e%2e%2fetc%2fpasswd", "/assets/..%5c..%5cx", "/photo/../book.db", "/photo/%2e%2e%2fbook.db", "//etc/passwd", "/api/pack/..%2faldermoor-carrier", "/api/pack/..",
                           "/photo/0000000000000000000000000000000000000000000000000000000000000000", "/report/1;x", "/api/jobs/1/../../..", "/assets/"}) {
    INFO(path);
    const Reply reply = phone.get(path);
    CHECK((reply.status == 400 || reply.status == 404));
    CHECK(reply.body.find("root:") == std::string::npos);
  }
  CHECK(phone.get("/" + std::string(3000, 'a')).status == 414);
  CHECK(phone.get("/api/jobs/999999").status == 404);
  CHECK(phone.get("/api/jobs/1x").status == 400);
}

TEST_CASE("an upload of 1 GB is refused without being read", "[serve]") {
  Context context;
  Phone phone(context.served);
  const auto job = new_job(phone);
  Wire wire(context.served.port());
  wire.send(context.head("POST /api/jobs/" + std::to_string(job) + "/photo?tap=" + tap_name(), "Cookie: " + phone.cookie + "\r\nX-Exworks-Token: " + phone.token + "\r\nContent-Type: image/jpeg\r\nContent-Length: 1073741824\r\n"));
  std::size_t sent = 0;
  const std::string block(1 << 16, 'x');
  for (std::size_t n = 0; n < 16384; ++n) {
    const std::size_t now = wire.send(block);
    sent += now;
    if (now < block.size()) break;
  }
  // What the system's own buffers take on both sides is far below this.
  CHECK(sent < 64u * 1024 * 1024);
  // The answer itself, by a sender that waits for it.
  CHECK(context.raw("POST /api/jobs/1/photo?tap=" + tap_name(), "Cookie: " + phone.cookie + "\r\nX-Exworks-Token: " + phone.token + "\r\nContent-Type: image/jpeg\r\nContent-Length: 1073741824\r\n").status == 413);
  CHECK(context.raw("POST /api/jobs", "Cookie: " + phone.cookie + "\r\nX-Exworks-Token: " + phone.token + "\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n").status == 411);
  CHECK(phone.get("/api/jobs").status == 200);
}

TEST_CASE("slow and broken senders hold up nobody", "[serve]") {
  Context context;
  Phone phone(context.served);
  std::vector<std::unique_ptr<Wire>> slow;
  for (int i = 0; i < 60; ++i) {
    slow.push_back(std::make_unique<Wire>(context.served.port()));
    slow.back()->send(i % 2 == 0 ? "GET /api/jobs HTTP/1.1\r\nHos" : "POST /join HTTP/1.1\r\nHost: " + context.served.host() + "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\ncode=");
  }
  CHECK(phone.get("/api/jobs").status == 200);
  // An endless head: cut off, not kept.
  Wire endless(context.served.port());
  endless.send("GET / HTTP/1.1\r\n");
  std::size_t sent = 0;
  for (int i = 0; i < 4096; ++i) {
    const std::string line = "X-Filler: " + std::string(4096, 'x') + "\r\n";
    const std::size_t now = endless.send(line);
    sent += now;
    if (now < line.size()) break;
  }
  CHECK(sent < 16u * 1024 * 1024);
  for (const char* junk : {"\r\n\r\n", "GET\r\n\r\n", "\x16\x03\x01\x02", "GET / HTTP/9.9\r\nHost: x\r\n\r\n"}) {
    Wire wire(context.served.port());
    wire.send(junk);
  }
  CHECK(phone.get("/api/jobs").status == 200);
  // Whoever trickles is let go in the end.
  CHECK_FALSE(slow.front()->reply(60).status == 200);
  CHECK(context.served.end() == 0);
}

TEST_CASE("script in notes and file names stays text", "[serve]") {
  Context context;
  Phone phone(context.served);
  const auto job = std::to_string(new_job(phone));
  const std::string script = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>";
  Json answer = tap(tap_name(), "headlamp-position", "low");
  answer["fields"]["note"] = script;
  REQUIRE(phone.post("/api/jobs/" + job + "/entries", {{"by", script.substr(0, 50)}, {"entries", Json::array({answer})}}).status == 200);
  const std::string png("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16);
  const Reply kept = phone.post_bytes("/api/jobs/" + job + "/photo?feature=headlamp-position&tap=" + tap_name() + "&name=..%2F%3Cscript%3Ealert(2)%3C%2Fscript%3E.png", "image/png", png);
  REQUIRE(kept.status == 200);
  for (const char* kind : {"pre-purchase", "intake", "owner"}) {
    const Reply report = phone.get("/report/" + job + "?format=html&kind=" + kind);
    REQUIRE(report.status == 200);
    CHECK(report.body.find("<script") == std::string::npos);
    CHECK(report.body.find("<img src=x") == std::string::npos);
    CHECK(report.headers.at("content-security-policy").find("default-src 'none'") == 0);
  }
  const Reply told = phone.get("/api/jobs/" + job);
  CHECK(told.headers.at("content-type").find("application/json") == 0);
  CHECK(told.headers.at("x-content-type-options") == "nosniff");
  const Reply page = phone.get("/");
  CHECK(page.headers.at("content-security-policy").find("unsafe") == std::string::npos);
  // A page that calls itself a picture is no picture.
  CHECK(phone.post_bytes("/api/jobs/" + job + "/photo?tap=" + tap_name() + "&name=a.png", "image/png", "<html><script>alert(3)</script>").status == 415);
  // The picture comes back as what it is, and can run nothing.
  const Reply picture = phone.get("/photo/" + kept.json().at("photo").get<std::string>());
  CHECK(picture.headers.at("content-type") == "image/png");
  CHECK(picture.headers.at("content-security-policy").find("sandbox") != std::string::npos);
}
