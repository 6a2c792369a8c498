#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>

#include "book/book.hpp"

/// How long lists and searches take in a book of 100,000 jobs. Figures for people; nothing passes or fails by them.
/// Use: exworks_book_bench NEW-FILE [jobs]
int main(int argc, char** argv) {
  using namespace exworks;
  using Clock = std::chrono::steady_clock;
  if (argc < 2) return std::fputs("name a file for the book\n", stderr), 2;
  const int jobs = argc > 2 ? std::atoi(argv[2]) : 100'000;
  const auto about = [](const char* name, const std::string& value) { return Entry{"about", name, Fields{{"value", value}}, "", "", false, false, 0}; };
  Book book(argv[1], system_environment());
  const auto begin = Clock::now();
  const char* const families[] = {"aldermoor-carrier", "morris-minor", "mgb"};
  for (int i = 0; i < jobs; ++i) {
    char date[16];
    std::snprintf(date, sizeof date, "%d-%02d-%02d", 2000 + i % 26, 1 + i % 12, 1 + i % 28);
    const std::string n = std::to_string(i);
    book.new_job({about("family", families[i % 3]), about("reference", "order " + n), about("owner", "owner " + std::to_string(i % 5000)), about("date", date), about("state", i % 10 == 0 ? "open" : "closed"),
                  {"number", "chassis-number", Fields{{"text", "AC V " + n}}, "", "", false, false, 0},
                  {"observed", "grille", Fields{{"value", "nine-bars"}, {"note", "seen under new paint, word" + std::to_string(i % 1000)}}, "", "", false, false, 0}},
                 "bench", std::nullopt);
  }
  std::vector<std::pair<StoredAssessment, std::vector<PartVerdict>>> kept;
  for (const auto job : book.all_jobs()) {
    StoredAssessment a;
    a.job = job;
    a.result = "{}";
    kept.push_back({a, {{"gearbox", job % 7 == 0 ? "later change" : "original"}, {"grille", "original"}}});
    if (kept.size() == 1000) book.add_assessments(kept, "bench"), kept.clear();
  }
  book.add_assessments(kept, "bench");
  std::printf("%d jobs written in %.1f s\n", jobs, std::chrono::duration<double>(Clock::now() - begin).count());
  const std::pair<const char*, std::function<void(Filter&)>> searches[] = {
      {"the latest", [](Filter&) {}},
      {"family", [](Filter& f) { f.family = "mgb"; }},
      {"reference", [](Filter& f) { f.reference = "order 77"; }},
      {"owner", [](Filter& f) { f.owner = "owner 4321"; }},
      {"number, whole", [](Filter& f) { f.number = "AC V 54321"; }},
      {"number, beginning", [](Filter& f) { f.number = "ACV5"; }},
      {"date, a year", [](Filter& f) { f.date_from = f.date_to = "2004"; }},
      {"later gearbox", [](Filter& f) { f.parts = {{"gearbox", "later change"}}; }},
      {"later grille (none)", [](Filter& f) { f.parts = {{"grille", "later change"}}; }},
      {"a rare word", [](Filter& f) { f.words = "word321"; }},
      {"words in every note", [](Filter& f) { f.words = "under paint"; }},
      {"family, date and word", [](Filter& f) { f.family = "mgb", f.date_from = "2010", f.date_to = "2015", f.words = "word77"; }}};
  for (const auto& [name, set] : searches) {
    Filter f;
    set(f);
    const auto start = Clock::now();
    const std::size_t found = book.find(f).size();
    std::printf("%-24s %6.2f ms  %zu found\n", name, std::chrono::duration<double, std::milli>(Clock::now() - start).count(), found);
  }
}
