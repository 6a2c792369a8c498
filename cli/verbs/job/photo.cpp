#include <iostream>

#include "base/file.hpp"
#include "workshop/book_common.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"

namespace exworks::cli {

namespace {

struct Options : BookOptions {
  std::int64_t job = 0;
  std::vector<std::string> files;
  std::string feature, note;
};

int run(const Options& options) {
  check_text("--note", options.note);
  check_text("--feature", options.feature);
  Book book = open_existing_book(options);
  book.job(options.job);
  const PhotoFolder folder(book.photo_folder());
  std::vector<Entry> entries;
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (const std::string& file : options.files) {
    const std::string bytes = read_file(file);
    if (photo_type(bytes).empty()) {
      std::cerr << file << ": this is no photo; give a JPEG, PNG, TIFF, WebP or HEIC file\n";
      return bad_input;
    }
    Fields fields{{"file", std::filesystem::path(file).filename().string()}};
    check_text("the photo's name", fields["file"]);
    const std::pair<const char*, std::string> said[] = {{"taken", photo_taken(bytes)}, {"feature", options.feature}, {"note", options.note}};
    for (const auto& [name, value] : said) {
      if (!value.empty()) fields[name] = value;
    }
    // The bytes are on the disk before the book names them.
    entries.push_back({"photo", folder.keep(bytes), fields, "", "", false, false, 0});
    out.push_back({{"file", file}, {"sha256", entries.back().name}, {"taken", photo_taken(bytes)}});
    if (!options.json) std::cout << entries.back().name << "  " << file << (photo_taken(bytes).empty() ? "" : "  taken " + photo_taken(bytes)) << '\n';
  }
  book.record(options.job, entries, who(options));
  if (options.json) std::cout << out.dump(2) << '\n';
  return done;
}

struct Forget : BookOptions {
  std::int64_t job = 0;
};

/// An inspection and a result without free text and names; the verdicts and what was seen stay.
void clean(StoredAssessment& a) {
  auto result = nlohmann::ordered_json::parse(a.result, nullptr, false);
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

int run_forget(const Forget& options) {
  Book book = open_existing_book(options);
  const Forgotten f = forget_job(book, options.job, clean);
  if (options.json) std::cout << nlohmann::ordered_json{{"job", options.job}, {"entries", f.changes}, {"assessments", f.assessments}, {"photos", f.photos}}.dump(2) << '\n';
  else std::cout << "job " << options.job << ": names, references and free text removed from " << f.changes << " entries and " << f.assessments << " assessments, with " << f.photos << " photos; what was seen stays\n";
  std::cerr << "note: backups, exports and other books made before still hold it\n";
  return done;
}

}  // namespace

void add_job_photo(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("photo", "Keep photos with a job: the original bytes, beside the book");
  auto options = std::make_shared<Options>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  verb->add_option("FILE", options->files, "the photos")->required();
  verb->add_option("--feature", options->feature, "the feature that they show");
  verb->add_option("--note", options->note, "what they show");
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, *options);
  verb->footer(std::string("Example: exworks job photo 12 under-3.jpg --feature gearbox-casing\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });

  auto* forget = group.add_subcommand("forget", "Remove a person's data from a job and its history, and keep what was seen of the vehicle");
  auto forgetting = std::make_shared<Forget>();
  forget->add_option("JOB", forgetting->job, "the job's number")->required();
  add_book_option(*forget, *forgetting);
  add_json_option(*forget, *forgetting);
  forget->footer(std::string("Example: exworks job forget 12\nIt can't be taken back.\n") + exit_codes);
  forget->callback([forgetting, &action] { action = [forgetting] { return run_forget(*forgetting); }; });
}

}  // namespace exworks::cli
