#include <iostream>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"
#include "command.hpp"
#include "report/render/page.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "words/redaction.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

using Options = JobShowArguments;

using Json = nlohmann::ordered_json;

Json json_of(Book& book, const Options& options) {
  Json out = to_json(book.job(options.job), options.redact);
  const char* list = options.history ? "history" : "entries";
  out[list] = Json::array();
  for (const Entry& e : options.history ? book.history(options.job) : book.entries(options.job)) out[list].push_back(to_json(e, options.redact));
  out["assessments"] = Json::array();
  for (const StoredAssessment& a : book.assessments(options.job)) {
    out["assessments"].push_back({{"assessment", a.id}, {"at", a.at}, {"by", options.redact ? withheld : a.by}, {"family", a.family}, {"pack_version", a.pack_version}, {"pack_digest", a.pack_digest},
                                  {"engine", a.engine}, {"settings", parse_foreign_ordered(a.settings)}});
  }
  out["conflicts"] = Json::array();
  for (const Conflict& c : book.conflicts(options.job)) out["conflicts"].push_back({{"kind", c.kind}, {"name", c.name}, {"ours", to_json(c.ours, options.redact)}, {"theirs", to_json(c.theirs, options.redact)}});
  return out;
}

std::string label(const Entry& e) { return e.kind == "about" ? e.name : e.kind == "photo" ? "photo " + e.name.substr(0, 12) : e.kind + " " + e.name; }

void add_entries(Page& page, Book& book, const Options& options) {
  page.heading(options.history ? "History, oldest first" : "Entries");
  for (const Entry& e : options.history ? book.history(options.job) : book.entries(options.job)) {
    const std::string by = options.redact ? "" : " by " + harmless(e.by);
    std::string text = words_of(e, options.redact);
    if (options.history) text = e.at + by + ": " + text + (e.current ? "" : " (replaced)");
    page.pair(harmless(label(e)), text, 2, 34);
  }
}

std::string text_of(Book& book, const Options& options) {
  const Job job = book.job(options.job);
  Page page(colour_wanted());
  page.heading("Job " + std::to_string(job.id) + (job.state == "closed" ? ", closed" : ", open") + "; vehicle " + std::to_string(job.vehicle));
  add_entries(page, book, options);
  if (const auto conflicts = book.conflicts(options.job); !conflicts.empty()) {
    page.heading("Two books disagree; 'job set' the entry to settle it");
    for (const Conflict& c : conflicts) {
      page.pair(harmless(c.name), "here: " + words_of(c.ours, options.redact), 2, 34);
      page.pair("", "there: " + words_of(c.theirs, options.redact), 2, 34);
    }
  }
  if (const auto assessments = book.assessments(options.job); !assessments.empty()) {
    page.heading("Assessments, oldest first");
    for (std::size_t i = 0; i < assessments.size(); ++i) {
      const StoredAssessment& a = assessments[i];
      page.pair(std::to_string(job.id) + "." + std::to_string(i + 1), a.at + ": pack " + a.family + " " + a.pack_version + " (" + a.pack_digest.substr(0, 12) + "), exworks " + a.engine, 2, 34);
    }
  }
  return page.text();
}

}  // namespace

int run(const JobShowArguments& options) {
  Book book = open_existing_book(options);
  if (options.json) print_json(json_of(book, options));
  else std::cout << text_of(book, options);
  return done;
}

}  // namespace exworks::cli
