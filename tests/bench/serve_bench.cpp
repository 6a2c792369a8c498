#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "serve/client.hpp"
#include "serve/soak.hpp"

/// exworks_serve_bench [tap|soak] [SECONDS] [PHONES]: how long it takes from a tap to the updated odds on each pack with one phone that
/// answers everything, and how a crowd of phones fares. Ends with 1 when something was lost or refused.
using namespace exworks::serve_test;

namespace {

double at_share(const std::vector<double>& sorted, double share) { return sorted.empty() ? 0 : 1000 * sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))]; }

struct Folder {
  std::filesystem::path path = std::filesystem::temp_directory_path() / ("exworks-serve-bench-" + tap_name());
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
};

/// Every feature of a pack is answered, one after the other, with the answer of the reference vehicles' most usual kind: the first.
void time_pack(const std::string& family) {
  const Folder folder;
  Served served(EXWORKS_BINARY, folder.path / "book.db", std::filesystem::path(EXWORKS_SOURCE_DIR) / "rules");
  Phone phone(served);
  phone.keep_open();
  const std::string job = std::to_string(phone.post("/api/jobs", {{"tap", tap_name()}, {"family", family}}).json().at("job").get<std::int64_t>());
  const Json pack = phone.get("/api/pack/" + family).json();
  std::vector<double> seconds;
  for (const Json& f : pack.at("features")) {
    if (f.at("unit") != "" || f.at("values").empty()) continue;
    const Json body = {{"by", "bench"}, {"since", 0}, {"entries", Json::array({tap(tap_name(), f.at("id"), f.at("values")[0].at("id"))})}};
    const auto begin = std::chrono::steady_clock::now();
    const Reply r = phone.post("/api/jobs/" + job + "/entries", body);
    seconds.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
    if (r.status != 200) std::printf("status %d: %s\n", r.status, r.body.c_str());
  }
  std::sort(seconds.begin(), seconds.end());
  std::printf("%-20s %3zu edits: median %5.1f ms, p95 %5.1f ms, longest %5.1f ms\n", family.c_str(), seconds.size(), at_share(seconds, 0.5), at_share(seconds, 0.95), at_share(seconds, 1));
}

int soak(std::size_t phones, double for_seconds) {
  const Folder folder;
  const Soak s = run_soak(EXWORKS_BINARY, folder.path / "book.db", std::filesystem::path(EXWORKS_SOURCE_DIR) / "rules", phones, for_seconds, 5);
  std::printf("%zu phones for %.0f s: %zu requests, %zu edits, %zu errors, %zu lost, %zu twice, exit %d; from tap to odds median %.0f ms, p95 %.0f ms, longest %.0f ms\n", phones, for_seconds, s.asked, s.edits, s.errors,
              s.lost, s.twice, s.exit_code, at_share(s.seconds, 0.5), at_share(s.seconds, 0.95), at_share(s.seconds, 1));
  if (!s.first_trouble.empty()) std::printf("the first trouble: %s\n", s.first_trouble.c_str());
  return s.errors + s.lost + s.twice > 0 || s.exit_code != 0 ? 1 : 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string what = argc > 1 ? argv[1] : "";
  if (what != "soak") {
    for (const char* family : {"volkswagen-type1", "willys-4x4", "mgb", "morris-minor", "aldermoor-carrier"}) time_pack(family);
  }
  if (what == "tap") return 0;
  return soak(argc > 3 ? std::strtoul(argv[3], nullptr, 10) : 50, argc > 2 ? std::strtod(argv[2], nullptr) : 60);
}
