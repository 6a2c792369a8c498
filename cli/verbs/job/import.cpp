#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/foreign_json.hpp"
#include "book/bundle.hpp"
#include "book/photos.hpp"
#include "command.hpp"
#include "log.hpp"
#include "report/render/page.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/job_assessment.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

Entry photo_entry(const std::string& hash, Fields fields) { return {"photo", hash, std::move(fields), "", "", false, false, 0}; }

/// A new job of these entries, or more of a job that is there.
std::int64_t take_in(Book& book, std::vector<Entry> entries, const JobImportArguments& options) {
  if (options.into > 0) {
    book.record(options.into, entries, who(options));
    return options.into;
  }
  entries.push_back(about("state", "open"));
  entries.push_back(about("purpose", "intake"));
  return book.new_job(entries, who(options), std::nullopt);
}

/// What another workshop worked out, with its pack and engine, as it came; nothing when it can't be read.
std::optional<std::pair<StoredAssessment, std::vector<PartVerdict>>> assessment_of(const Bundle& bundle) {
  const auto a = parse_foreign_ordered(bundle.assessment);
  if (!a.is_object() || !a.contains("result")) return std::nullopt;
  const auto text = [&](const char* name) { return a.contains(name) && a[name].is_string() ? a[name].get<std::string>() : std::string(); };
  StoredAssessment s;
  s.family = text("family");
  s.pack_version = text("pack_version");
  s.pack_digest = text("pack_digest");
  s.engine = text("engine");
  s.settings = a.value("settings", nlohmann::ordered_json::object()).dump();
  s.inspection = bundle.inspection;
  s.result = a["result"].dump();
  return std::pair{s, part_verdicts(a["result"])};
}

/// Warnings and notes are told at once; mistakes are thrown.
std::vector<Entry> entries_of(const std::string& xml, const std::string& file) {
  Diagnostics remarks;
  std::vector<Entry> entries = entries_of_xml(xml, file, remarks);
  print(remarks, true);
  return entries;
}

std::int64_t import_bundle(Book& book, const std::string& file, const JobImportArguments& options) {
  const Bundle bundle = read_bundle(file);
  std::vector<Entry> entries = entries_of(bundle.inspection, file + ": inspection.xml");
  auto assessment = assessment_of(bundle);  // before anything is written
  const PhotoFolder folder(book.photo_folder());
  for (const auto& [hash, bytes] : bundle.bytes) {
    folder.keep(bytes);
    Fields fields = bundle.photos.count(hash) != 0 ? bundle.photos.at(hash) : Fields{};
    for (const auto& [name, value] : fields) require_text("the bundle's photo " + name, value);
    entries.push_back(photo_entry(hash, fields));
  }
  const std::int64_t job = take_in(book, entries, options);
  if (assessment) {
    assessment->first.job = job;
    book.add_assessments({std::move(*assessment)}, who(options));
  }
  return job;
}

}  // namespace

int run(const JobImportArguments& options) {
  Book book = open_book(options);
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  bool failed = false;
  for (const std::string& file : options.files) {
    const Stopwatch watch;
    try {
      const std::int64_t job = looks_like_bundle(file) ? import_bundle(book, file, options) : take_in(book, entries_of(read_file(file), file), options);
      out.push_back({{"file", file}, {"job", job}});
      log(LogLevel::info, "imported", {{"job", job}, {"ms", watch.milliseconds()}});
      if (!options.json) std::cout << "job " << job << "  " << harmless(file) << '\n';
    } catch (const Mistakes& m) {
      print(m.found, true);
      log(LogLevel::warning, "import refused", {{"why", "mistakes"}});
      failed = true;
    } catch (const BundleRefused& e) {
      tell(e.what, "; ", e.remedy);
      log(LogLevel::warning, "import refused", {{"why", "no sound bundle"}});
      failed = true;
    }
  }
  if (options.json) print_json(out);
  return failed ? bad_input : done;
}

}  // namespace exworks::cli
