#include <functional>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"
#include "book/keep.hpp"
#include "command.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "words/english/english.hpp"

namespace exworks::cli {

namespace {

/// An inspection and a result without free text and names; the verdicts and what was seen stay.
void clean(StoredAssessment& a) {
  auto result = parse_foreign_ordered(a.result);
  const std::function<void(nlohmann::ordered_json&)> walk = [&](nlohmann::ordered_json& node) {
    if (node.is_object()) {
      for (const char* name : {"vehicle", "reference", "note", "by"}) {
        if (node.contains(name) && node[name].is_string()) node[name] = "";
      }
    }
    if (node.is_structured()) {
      for (auto& child : node) walk(child);
    }
  };
  walk(result);
  // Claims and documents repeat their notes within a sentence.
  for (const char* list : {"claims", "documents", "remarks", "missing", "cannot_tell"}) {
    if (result.is_object()) result[list] = nlohmann::ordered_json::array();
  }
  a.result = result.dump();
  a.inspection.clear();
}

}  // namespace

int run(const JobForgetArguments& options) {
  Book book = open_existing_book(options);
  const Forgotten f = forget_job(book, options.job, clean);
  if (options.json) print_json(nlohmann::ordered_json{{"job", options.job}, {"entries", f.changes}, {"assessments", f.assessments}, {"photos", f.photos}});
  else std::cout << "job " << options.job << ": names, references and free text removed from " << counted(f.changes, "entry", "entries") << " and " << counted(f.assessments, "assessment") << ", with " << counted(f.photos, "photo") << "; what was seen stays\n";
  tell("note: backups, exports and other books made before still hold it");
  return done;
}

}  // namespace exworks::cli
