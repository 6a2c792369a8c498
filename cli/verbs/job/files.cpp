#include <iostream>

#include "base/file.hpp"
#include "workshop/book_assess.hpp"
#include "workshop/book_common.hpp"
#include "workshop/book_inspection.hpp"
#include "command.hpp"
#include "book/bundle.hpp"
#include "book/photos.hpp"

namespace exworks::cli {

namespace {

struct Options : BookOptions {
  std::int64_t job = 0;
  std::vector<std::string> files;
  std::string bundle, output;
  std::int64_t into = 0;
  bool overwrite = false;
};

Entry photo_entry(const std::string& hash, Fields fields) { return {"photo", hash, std::move(fields), "", "", false, false, 0}; }

/// A new job of these entries, or more of a job that is there.
std::int64_t take_in(Book& book, std::vector<Entry> entries, const Options& options) {
  if (options.into > 0) {
    book.record(options.into, entries, who(options));
    return options.into;
  }
  entries.push_back(about("state", "open"));
  entries.push_back(about("purpose", "intake"));
  return book.new_job(entries, who(options), std::nullopt);
}

/// What another workshop worked out, with its pack and engine, as it came.
void take_assessment(Book& book, std::int64_t job, const Bundle& bundle, const std::string& by) {
  const auto a = nlohmann::json::parse(bundle.assessment, nullptr, false);
  if (!a.is_object() || !a.contains("result")) return;
  const auto text = [&](const char* name) { return a.contains(name) && a[name].is_string() ? a[name].get<std::string>() : std::string(); };
  StoredAssessment s;
  s.job = job;
  s.family = text("family");
  s.pack_version = text("pack_version");
  s.pack_digest = text("pack_digest");
  s.engine = text("engine");
  s.settings = a.value("settings", nlohmann::json::object()).dump();
  s.inspection = bundle.inspection;
  s.result = nlohmann::ordered_json::parse(bundle.assessment)["result"].dump();
  book.add_assessments({{s, part_verdicts(a["result"])}}, by);
}

std::int64_t import_bundle(Book& book, const std::string& file, const Options& options) {
  const Bundle bundle = read_bundle(file);
  std::vector<Entry> entries = entries_of_xml(bundle.inspection, file + ": inspection.xml");
  const PhotoFolder folder(book.photo_folder());
  for (const auto& [hash, bytes] : bundle.bytes) {
    folder.keep(bytes);
    Fields fields = bundle.photos.count(hash) != 0 ? bundle.photos.at(hash) : Fields{};
    for (const auto& [name, value] : fields) check_text("the bundle's photo " + name, value);
    entries.push_back(photo_entry(hash, fields));
  }
  const std::int64_t job = take_in(book, entries, options);
  if (!bundle.assessment.empty()) take_assessment(book, job, bundle, who(options));
  return job;
}

int run_import(const Options& options) {
  Book book = open_book(options);
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  bool failed = false;
  for (const std::string& file : options.files) {
    try {
      const std::int64_t job = looks_like_bundle(file) ? import_bundle(book, file, options) : take_in(book, entries_of_xml(read_file(file), file), options);
      out.push_back({{"file", file}, {"job", job}});
      if (!options.json) std::cout << "job " << job << "  " << file << '\n';
    } catch (const BadInput&) {
      failed = true;
    } catch (const BundleRefused& e) {
      std::cerr << e.what << "; " << e.remedy << '\n';
      failed = true;
    }
  }
  if (options.json) std::cout << out.dump(2) << '\n';
  return failed ? bad_input : done;
}

Bundle bundle_of(Book& book, const Options& options) {
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
  if (left_out > 0) std::cerr << "note: " << left_out << " photos are left out: they can show who and where\n";
  const Job job = book.job(options.job);
  if (!job.assessment || options.redact) return bundle;
  const StoredAssessment a = book.assessment(*job.assessment);
  bundle.assessment = nlohmann::ordered_json{{"family", a.family}, {"pack_version", a.pack_version}, {"pack_digest", a.pack_digest}, {"engine", a.engine}, {"at", a.at},
                                             {"settings", nlohmann::ordered_json::parse(a.settings)}, {"result", nlohmann::ordered_json::parse(a.result)}}.dump(2);
  return bundle;
}

int run_export(const Options& options) {
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

}  // namespace

void add_job_files(CLI::App& group, Action& action) {
  auto* in = group.add_subcommand("import", "Take in inspections (XML) or bundles from another workshop, each as a job");
  auto importing = std::make_shared<Options>();
  in->add_option("FILE", importing->files, "inspections or bundles")->required();
  in->add_option("--into", importing->into, "add the entries to this job instead")->check(CLI::PositiveNumber);
  add_book_option(*in, *importing);
  add_by_option(*in, *importing);
  add_json_option(*in, *importing);
  in->footer(std::string("Example: exworks job import sample-vehicles/carrier-gearbox-from-a-later-van.xml\n") + exit_codes);
  in->callback([importing, &action] { action = [importing] { return run_import(*importing); }; });

  auto* out = group.add_subcommand("export", "Write a job as an inspection (XML), or as a bundle with its photos and assessment");
  auto exporting = std::make_shared<Options>();
  out->add_option("JOB", exporting->job, "the job's number")->required();
  auto* file = out->add_option("--output", exporting->output, "write the XML to this file instead of standard output");
  out->add_option("--bundle", exporting->bundle, "write a bundle (zip) to this file")->excludes(file);
  add_overwrite_option(*out, exporting->overwrite);
  add_redact_option(*out, *exporting);
  add_book_option(*out, *exporting);
  out->footer(std::string("Example: exworks job export 12 --bundle van.zip\n") + exit_codes);
  out->callback([exporting, &action] { action = [exporting] { return run_export(*exporting); }; });
}

}  // namespace exworks::cli
