#include <iostream>
#include <nlohmann/json.hpp>

#include "base/foreign_json.hpp"
#include "base/file.hpp"
#include "book/bundle.hpp"
#include "book/photos.hpp"
#include "command.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "words/english/english.hpp"
#include "workshop/job_inspection.hpp"

namespace exworks::cli {

namespace {

Bundle bundle_of(Book& book, const JobExportArguments& options) {
  Bundle bundle;
  const std::vector<Entry> entries = book.entries(options.job);
  bundle.inspection = xml_of_entries(entries, options.redact);
  const PhotoFolder folder(book.photo_folder());
  std::size_t left_out = 0;
  for (const Entry& e : entries) {
    if (e.kind != "photo") continue;
    if (options.redact) {
      ++left_out;
      continue;
    }
    if (const std::string wrong = folder.wrong_with(e.name); !wrong.empty()) throw FileError{"photo " + e.name + " " + wrong, "'exworks book verify' lists all such; take it in again with 'exworks job photo'"};
    bundle.bytes[e.name] = read_file(folder.file(e.name));
    bundle.photos[e.name] = *e.fields;
  }
  if (left_out > 0) tell("note: ", counted(left_out, "photo"), " ", is_or_are(left_out), " left out: a photo can show who and where");
  const Job job = book.job(options.job);
  if (!job.assessment || options.redact) return bundle;
  const StoredAssessment a = book.assessment(*job.assessment);
  bundle.assessment = nlohmann::ordered_json{{"family", a.family}, {"pack_version", a.pack_version}, {"pack_digest", a.pack_digest}, {"engine", a.engine}, {"at", a.at},
                                             {"settings", parse_foreign_ordered(a.settings)}, {"result", parse_foreign_ordered(a.result)}}.dump(2);
  return bundle;
}

}  // namespace

int run(const JobExportArguments& options) {
  Book book = open_existing_book(options);
  const std::string& target = options.bundle.empty() ? options.output : options.bundle;
  refuse_existing(target, options.overwrite);
  if (!options.bundle.empty()) {
    write_bundle(options.bundle, bundle_of(book, options));
  } else {
    const std::string xml = xml_of_entries(book.entries(options.job), options.redact);
    if (options.output.empty()) std::cout << xml;
    else write_file(options.output, xml);
  }
  return done;
}

}  // namespace exworks::cli
