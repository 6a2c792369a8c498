#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "book/photos.hpp"
#include "command.hpp"
#include "verbs/job/verbs.hpp"
#include "verbs/open_book.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

int run(const JobPhotoArguments& options) {
  require_text("--note", options.note);
  require_text("--feature", options.feature);
  Book book = open_existing_book(options);
  book.job(options.job);
  const PhotoFolder folder(book.photo_folder());
  std::vector<Entry> entries;
  nlohmann::ordered_json out = nlohmann::ordered_json::array();
  for (const std::string& file : options.files) {
    const std::string bytes = read_file(file);
    if (photo_type(bytes).empty()) {
      tell(file, ": this is no photo; give a JPEG, PNG, TIFF, WebP or HEIC file");
      return bad_input;
    }
    Fields fields{{"file", std::filesystem::path(file).filename().string()}};
    require_text("the photo's name", fields["file"]);
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
  if (options.json) print_json(out);
  return done;
}

}  // namespace exworks::cli
