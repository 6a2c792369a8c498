#include <charconv>
#include <iostream>
#include <nlohmann/json.hpp>
#include <tuple>

#include "base/file.hpp"
#include "command.hpp"
#include "verbs/job/comparison.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "words/english/english.hpp"

namespace exworks::cli {

namespace {

/// "12": the latest assessment of job 12; "12.1": its first.
StoredAssessment find_assessment(Book& book, const std::string& text) {
  std::int64_t job = 0;
  std::size_t which = 0;
  const char* end = text.data() + text.size();
  auto [at, error] = std::from_chars(text.data(), end, job);
  if (error == std::errc() && at != end && *at == '.') std::tie(at, error) = [&] { const auto r = std::from_chars(at + 1, end, which); return std::pair(r.ptr, r.ec); }();
  if (error != std::errc() || at != end) {
    tell("'", text, "' names no assessment; write a job's number for its latest, or 12.1 for the first of job 12");
    throw BadInput{};
  }
  const auto all = book.assessments(job);
  if (all.empty()) throw FileError{"job " + std::to_string(job) + " has no assessment yet", "make one with 'exworks job reassess " + std::to_string(job) + "'"};
  if (which > all.size()) throw FileError{"job " + std::to_string(job) + " has " + counted(all.size(), "assessment"), "'exworks job show' lists them"};
  return book.assessment(which == 0 ? book.job(job).assessment.value_or(all.back().id) : all[which - 1].id);
}

}  // namespace

int run(const JobCompareArguments& options) {
  Book book = open_existing_book(options);
  const nlohmann::ordered_json c = comparison(find_assessment(book, options.a), find_assessment(book, options.b));
  if (options.json) print_json(c);
  else std::cout << text_of_comparison(c);
  return done;
}

}  // namespace exworks::cli
