#include "verbs/assess_batch.hpp"

#include <unistd.h>

#include <chrono>
#include <iostream>

#include "command.hpp"
#include "log.hpp"
#include "verbs/open_book.hpp"
#include "workshop/batch.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

/// One line on a terminal, once the run has taken a second; erased at the end.
class Progress {
 public:
  explicit Progress(std::size_t all) : all_(all), terminal_(isatty(STDERR_FILENO) == 1), start_(std::chrono::steady_clock::now()) {}
  ~Progress() {
    if (shown_) std::cerr << "\r\x1b[K";
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void clear() {
    if (shown_) std::cerr << "\r\x1b[K";
  }
  void show(std::size_t done) {
    if (!terminal_ || std::chrono::steady_clock::now() - start_ < std::chrono::seconds(1)) return;
    shown_ = true;
    const std::size_t filled = 30 * done / all_;
    std::cerr << "\r[" << std::string(filled, '#') << std::string(30 - filled, '.') << "] " << done << " of " << all_ << std::flush;
  }

 private:
  std::size_t all_;
  bool terminal_, shown_ = false;
  std::chrono::steady_clock::time_point start_;
};

/// Tells results as they come, and how many of them failed.
class Teller {
 public:
  explicit Teller(std::size_t all) : all_(all), progress_(all) {}

  void deliver(const std::vector<BatchResult>& results, std::size_t delivered) {
    progress_.clear();
    for (const BatchResult& r : results) {
      std::cout << r.line;
      if (r.error.empty()) continue;
      tell(r.error);
      ++failed_;
    }
    std::cout.flush();
    progress_.show(delivered);
    log(LogLevel::debug, "batch", {{"delivered", delivered}, {"failed", failed_}, {"ms", watch_.milliseconds()}});
  }

  int exit_code() const {
    log(failed_ == 0 ? LogLevel::info : LogLevel::warning, "batch assessed", {{"inspections", all_}, {"failed", failed_}, {"ms", watch_.milliseconds()}});
    if (failed_ == 0) return done;
    tell(failed_, " of ", all_, " could not be assessed; what is wrong with each stands above");
    return bad_input;
  }

 private:
  std::size_t all_, failed_ = 0;
  Progress progress_;
  Stopwatch watch_;
};

std::vector<std::int64_t> jobs_meant(Book& book, const AssessArguments& a) {
  if (a.all) return book.all_jobs();
  std::vector<std::int64_t> jobs;
  for (const std::string& text : a.files) jobs.push_back(find_job(book, text));
  return jobs;
}

}  // namespace

int run_batch(const AssessArguments& a) {
  Packs packs(rules_folders(a.rules));
  const BatchWanted wanted{a.family, a.quick, a.jsonl};
  std::optional<Book> book;
  std::vector<std::int64_t> jobs;
  if (a.of_book) {
    book.emplace(open_existing_book(a.book));
    jobs = jobs_meant(*book, a);
  }
  Teller teller(book ? jobs.size() : a.files.size());
  const auto deliver = [&](const std::vector<BatchResult>& results, std::size_t delivered) { teller.deliver(results, delivered); };
  if (book) batch_of_jobs(packs, *book, jobs, who(a.book), wanted, deliver);
  else batch_of_files(packs, a.files, wanted, deliver);
  return teller.exit_code();
}

}  // namespace exworks::cli
