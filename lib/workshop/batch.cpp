#include "workshop/batch.hpp"

#include <unistd.h>

#include <atomic>
#include <chrono>
#include <iostream>
#include <nlohmann/json.hpp>
#include <thread>

#include "base/file.hpp"
#include "workshop/book_assess.hpp"
#include "workshop/book_inspection.hpp"
#include "report/json/assessment_json.hpp"
#include "report/render/page.hpp"
#include "assess/summary.hpp"
#include "words/scales.hpp"

namespace exworks::cli {

namespace {

using Json = nlohmann::ordered_json;

struct Outcome {
  std::string line, error;
  std::vector<std::pair<StoredAssessment, std::vector<PartVerdict>>> keep;
};

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

/// Works through 0..count-1 a block at a time: two threads fill a block, then it is delivered in order.
template <class Work, class Deliver>
void in_blocks(std::size_t count, const Work& work, const Deliver& deliver) {
  constexpr std::size_t block_size = 128;
  for (std::size_t begin = 0; begin < count; begin += block_size) {
    std::vector<Outcome> block(std::min(block_size, count - begin));
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
      for (std::size_t i = next++; i < block.size(); i = next++) block[i] = work(begin + i);
    };
    std::thread second(run);
    run();
    second.join();
    deliver(begin, block);
  }
}

std::string summary(const std::string& name, const Assessed& a) {
  const VerdictCounts n = verdict_counts(a.assessment);
  const Tables& t = *a.tables;
  const RouteInfo& leading = t.routes[a.assessment.routes.front().route];
  return name + ": " + percent(a.assessment.variants.front().p) + " " + t.axes.variants[leading.variant].name + ", " + to_words(a.assessment.date.from) + " to " +
         to_words(a.assessment.date.to) + "; " + std::to_string(n.original) + " original, " + std::to_string(n.later) + " later, " + std::to_string(n.uncertain) + " uncertain";
}

std::string line_of(const char* key, const Json& name, const std::string& shown, const Assessed& a, bool jsonl) {
  if (!jsonl) return harmless(summary(shown, a)) + "\n";
  Json line = {{key, name}};
  line.update(json_report(*a.tables, a.assessment));
  return line.dump() + "\n";
}

std::string error_line(const char* key, const Json& name, const std::string& why) { return Json{{key, name}, {"error", why}}.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n"; }

/// Runs `work` and turns what it throws into the outcome's error.
template <class Work>
Outcome safely(const char* key, const Json& name, bool jsonl, const Work& work) {
  Outcome out;
  try {
    work(out);
    return out;
  } catch (const Failed& f) {
    out.error = f.why;
  } catch (const FileError& e) {
    out.error = e.what + "; " + e.remedy;
  } catch (const std::exception& e) {
    out.error = name.dump() + ": " + e.what() + "; this is a fault of the program: please report it with this input";
  }
  if (jsonl) out.line = error_line(key, name, out.error);
  return out;
}

/// Prints a block; returns how many of it failed.
std::size_t print_block(const std::vector<Outcome>& block) {
  std::size_t failed = 0;
  for (const Outcome& o : block) {
    std::cout << o.line;
    if (o.error.empty()) continue;
    std::cerr << o.error << '\n';
    ++failed;
  }
  std::cout.flush();
  return failed;
}

int result(std::size_t failed, std::size_t all) {
  if (failed == 0) return done;
  std::cerr << failed << " of " << all << " could not be assessed; what is wrong with each stands above\n";
  return bad_input;
}

}  // namespace

int batch_of_files(const BatchOptions& options) {
  PackCache packs(rules_folders(options.rules));
  const Settings settings = batch_settings(options.quick);
  Progress progress(options.files.size());
  std::size_t failed = 0;
  in_blocks(
      options.files.size(),
      [&](std::size_t i) {
        const std::string& file = options.files[i];
        return safely("file", file, options.jsonl, [&](Outcome& out) { out.line = line_of("file", file, file, assess_xml(packs, read_file(file), file, options.family, settings), options.jsonl); });
      },
      [&](std::size_t begin, const std::vector<Outcome>& block) {
        progress.clear();
        failed += print_block(block);
        progress.show(begin + block.size());
      });
  return result(failed, options.files.size());
}

int batch_of_book(const BatchOptions& options, const BookOptions& book_options) {
  Book book = open_existing_book(book_options);
  std::vector<std::int64_t> jobs;
  for (const std::string& text : options.files) jobs.push_back(find_job(book, text));
  if (options.all) jobs = book.all_jobs();
  PackCache packs(rules_folders(options.rules));
  const Settings settings = batch_settings(options.quick);
  const std::string by = who(book_options);
  Progress progress(jobs.size());
  std::mutex reading;
  std::size_t failed = 0;
  in_blocks(
      jobs.size(),
      [&](std::size_t i) {
        return safely("job", jobs[i], options.jsonl, [&](Outcome& out) {
          const std::string name = "job " + std::to_string(jobs[i]);
          std::string xml;
          {
            const std::lock_guard lock(reading);
            xml = xml_of_entries(book.entries(jobs[i]), false);
          }
          const Assessed a = assess_xml(packs, xml, name, options.family, settings);
          out.keep.push_back(to_store(jobs[i], xml, a));
          out.line = line_of("job", jobs[i], name, a, options.jsonl);
        });
      },
      [&](std::size_t begin, const std::vector<Outcome>& block) {
        std::vector<std::pair<StoredAssessment, std::vector<PartVerdict>>> keep;
        for (const Outcome& o : block) keep.insert(keep.end(), o.keep.begin(), o.keep.end());
        // Kept before it is shown: what a reader has seen is in the book.
        if (!keep.empty()) book.add_assessments(keep, by);
        progress.clear();
        failed += print_block(block);
        progress.show(begin + block.size());
      });
  return result(failed, jobs.size());
}

}  // namespace exworks::cli
