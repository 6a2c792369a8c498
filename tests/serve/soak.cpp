#include "serve/soak.hpp"

#include <algorithm>
#include <chrono>
#include <mutex>
#include <random>
#include <thread>

#include "serve/client.hpp"

namespace exworks::serve_test {

namespace {

using Clock = std::chrono::steady_clock;

struct Shared {
  std::mutex mutex;
  Soak soak;
  std::vector<std::pair<std::string, std::string>> kept;  ///< job, tap

  void trouble(const std::string& what) {
    const std::lock_guard lock(mutex);
    ++soak.errors;
    if (soak.first_trouble.empty()) soak.first_trouble = what;
  }
};

/// One look and one answer, as an inspector goes round.
class Inspector {
 public:
  Inspector(Served& served, std::string job, unsigned seed, Shared& shared) : phone_(served), job_(std::move(job)), random_(seed), shared_(shared) { phone_.keep_open(); }

  void begin(const std::string& family) {
    const Json pack = good(phone_.get("/api/pack/" + family));
    for (const Json& f : pack.at("features")) {
      if (f.at("unit") == "" && !f.at("values").empty()) features_.push_back(f);
    }
  }

  void go(Clock::time_point until) {
    try {
      for (int n = 0; Clock::now() < until; ++n) {
        answer();
        good(phone_.get("/api/jobs/" + job_ + "?since=" + std::to_string(change_)));
        if (n % 10 == 5) good(phone_.get("/api/jobs/" + job_ + "/next?most=3"));
        std::this_thread::sleep_for(std::chrono::milliseconds(100 + random_() % 400));
      }
    } catch (const std::exception& e) {
      shared_.trouble(e.what());
    }
  }

  Phone& phone() { return phone_; }
  void take_job(std::string job) { job_ = std::move(job); }

 private:
  Json good(const Reply& r) {
    const std::lock_guard lock(shared_.mutex);
    ++shared_.soak.asked;
    if (r.status != 200) throw std::runtime_error("status " + std::to_string(r.status) + ": " + r.body.substr(0, 200));
    return r.json();
  }

  void answer() {
    const Json& f = features_[random_() % features_.size()];
    const Json& values = f.at("values");
    const std::string name = tap_name();
    const Json body = {{"by", "soak"}, {"since", change_}, {"entries", Json::array({tap(name, f.at("id"), values[random_() % values.size()].at("id"), change_)})}};
    const auto begin = Clock::now();
    const Json told = good(phone_.post("/api/jobs/" + job_ + "/entries", body));
    const std::chrono::duration<double> took = Clock::now() - begin;
    if (told.at("saved") != Json::array({name})) throw std::runtime_error("a tap was not acknowledged");
    if (!told.at("now").is_object()) throw std::runtime_error("no odds came back");
    change_ = told.at("change").get<std::int64_t>();
    const std::lock_guard lock(shared_.mutex);
    ++shared_.soak.edits;
    shared_.soak.seconds.push_back(took.count());
    shared_.kept.emplace_back(job_, name);
  }

  Phone phone_;
  std::string job_;
  std::mt19937 random_;
  Shared& shared_;
  std::vector<Json> features_;
  std::int64_t change_ = 0;
};

/// Every acknowledged tap must stand in its job's history, once.
void count_lost(Phone& phone, Shared& shared) {
  std::map<std::string, std::map<std::string, std::size_t>> seen;
  for (const auto& [job, tap] : shared.kept) {
    auto [at, fresh] = seen.try_emplace(job);
    if (fresh) {
      const Json history = phone.get("/api/jobs/" + job + "/history").json();
      for (const Json& e : history.at("entries")) ++at->second[e.at("tap").get<std::string>()];
    }
    const std::size_t times = at->second[tap];
    shared.soak.lost += times == 0 ? 1 : 0;
    shared.soak.twice += times > 1 ? 1 : 0;
  }
}

}  // namespace

Soak run_soak(const std::string& program, const std::filesystem::path& book, const std::filesystem::path& rules, std::size_t phones, double for_seconds, std::size_t sharing) {
  static const char* const families[] = {"volkswagen-type1", "morris-minor", "mgb", "willys-4x4", "aldermoor-carrier"};
  Shared shared;
  Served served(program, book, rules);
  std::vector<std::unique_ptr<Inspector>> inspectors;
  std::string job;
  for (std::size_t i = 0; i < phones; ++i) {
    const std::string family = families[i / sharing % 5];
    inspectors.push_back(std::make_unique<Inspector>(served, "", static_cast<unsigned>(i), shared));
    if (i % sharing == 0) job = std::to_string(inspectors.back()->phone().post("/api/jobs", {{"tap", tap_name()}, {"family", family}}).json().at("job").get<std::int64_t>());
    inspectors.back()->take_job(job);
    inspectors.back()->begin(family);
  }
  const auto until = Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(for_seconds));
  std::vector<std::thread> threads;
  for (auto& i : inspectors) threads.emplace_back([&i, until] { i->go(until); });
  for (auto& t : threads) t.join();
  count_lost(inspectors.front()->phone(), shared);
  shared.soak.exit_code = served.end();
  std::sort(shared.soak.seconds.begin(), shared.soak.seconds.end());
  return std::move(shared.soak);
}

}  // namespace exworks::serve_test
