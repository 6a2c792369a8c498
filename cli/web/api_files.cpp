#include "base/file.hpp"
#include "base/text.hpp"
#include "make_report.hpp"
#include "pdf.hpp"
#include "photos.hpp"
#include "report/render.hpp"
#include "report/terms.hpp"
#include "store/photos.hpp"
#include "store/sha256.hpp"
#include "web/api.hpp"
#include "web/taps.hpp"

/// Pictures in and out, and the reports.
namespace exworks::cli::web {

namespace {

std::string photo_media(const std::string& type) { return type == "jpg" ? "image/jpeg" : type == "tif" ? "image/tiff" : "image/" + type; }

/// A parameter as a person may have named a file: no path, plain text.
std::string file_name(const std::string& text) {
  const std::string name = fold_space(text.substr(text.find_last_of("/\\") == std::string::npos ? 0 : text.find_last_of("/\\") + 1));
  std::size_t bad = 0;
  return is_clean_utf8(name, &bad) && !name.empty() && name.size() <= 200 ? name : "picture";
}

}  // namespace

Json Api::keep_photo(const Call& call) {
  const Job job = shop_.job(call.job());
  const Tables& t = shop_.family(job.family);
  const std::string tap = call.parameter("tap"), feature = call.parameter("feature"), by = call.parameter("by");
  check_tap_name(tap);
  if (!feature.empty() && !t.feature_index.contains(feature)) throw Refusal{400, "the pack has no such feature; load the page again"};
  std::size_t bad = 0;
  if (by.size() > 60 || !is_clean_utf8(by, &bad)) throw Refusal{400, "'by' is no plain text; write your initials"};
  const std::string& bytes = call.request.body;
  if (photo_type(bytes).empty()) throw Refusal{415, "this is no picture; send a JPEG, PNG, TIFF, WebP or HEIC file"};
  Fields fields{{"file", file_name(call.parameter("name"))}};
  if (!feature.empty()) fields["feature"] = feature;
  if (const std::string taken = photo_taken(bytes); !taken.empty()) fields["taken"] = taken;
  // The bytes are on the disk before the book names them.
  const PhotoFolder folder(shop_.with_book([](Book& book) { return book.photo_folder(); }));
  const std::string hash = folder.keep(bytes);
  Entry entry{"photo", hash, fields, "", "", false, false, 0, tap};
  const std::int64_t change = shop_.with_book([&](Book& book) {
    book.record_taps(job.id, {{entry, 0}}, by);
    return book.last_change(job.id);
  });
  return {{"photo", hash}, {"change", change}};
}

void Api::photo(const Call& call) {
  const std::string& hash = call.parts.at(1);
  std::filesystem::path folder;
  const bool known = is_sha256(hash) && shop_.with_book([&](Book& book) {
    folder = book.photo_folder();
    return book.has_photo(hash);
  });
  if (!known) throw Refusal{404, "the book has no such picture; load the page again"};
  const std::string bytes = read_file(PhotoFolder(folder).file(hash)), type = photo_type(bytes);
  if (type.empty()) throw Refusal{404, "the picture is damaged; restore the book's photos from a backup"};
  call.response.headers.erase("Content-Security-Policy");
  call.response.set_header("Content-Security-Policy", "default-src 'none'; sandbox");
  call.response.set_content(bytes, photo_media(type).c_str());
}

namespace {

/// Gives each observation the picture that was taken of its feature, and reads the pictures from the book's folder.
std::map<std::string, std::string> photos_of_job(const std::vector<Entry>& entries, const PhotoFolder& folder, Inspection& inspection) {
  std::map<std::string, std::string> out;
  for (const Entry& e : entries) {
    if (e.kind != "photo" || !e.fields) continue;
    const std::string file = e.fields->count("file") ? e.fields->at("file") : e.name, feature = e.fields->count("feature") ? e.fields->at("feature") : "";
    for (Observation& o : inspection.observations) {
      const bool shows = o.photo == file || (o.photo.empty() && o.feature == feature);
      if (!shows) continue;
      o.photo = file;
      if (!out.contains(file)) out[file] = folder.wrong_with(e.name).empty() ? photo_address(read_file(folder.file(e.name))) : "";
    }
  }
  return out;
}

ReportOptions options_of(const Call& call) {
  ReportOptions o;
  const std::string kind = call.parameter("kind");
  if (kind != "" && kind != "pre-purchase" && kind != "intake" && kind != "owner") throw Refusal{400, "there is no report of this kind; choose pre-purchase, intake or owner"};
  o.kind = kind == "intake" ? ReportKind::intake : kind == "owner" ? ReportKind::owner : ReportKind::pre_purchase;
  o.date = today();
  o.program = "exworks " EXWORKS_VERSION;
  return o;
}

}  // namespace

void Api::report(const Call& call) {
  const std::int64_t id = as_number(call.parts.at(1), "the job");
  const std::string format = call.parameter("format").empty() ? "html" : call.parameter("format");
  if (format != "html" && format != "pdf" && format != "txt") throw Refusal{400, "a report is html, pdf or txt; choose one of them"};
  const ReportOptions options = options_of(call);
  shop_.job(id);
  const auto state = shop_.state(id);
  if (state->tables == nullptr) throw Refusal{400, "the job can't be judged: " + state->trouble};
  Inspection inspection = state->inspection;
  std::vector<Entry> entries;
  const PhotoFolder folder(shop_.with_book([&](Book& book) {
    entries = book.entries(id);
    return book.photo_folder();
  }));
  const auto photos = photos_of_job(entries, folder, inspection);
  const Tables tables = in_terms(*state->tables, options.region);
  Diagnostics diagnostics;
  const auto made = make_report({tables, std::move(inspection), Given{}, false, [&](const Inspection&) { return photos; }, {}}, options, diagnostics);
  if (!made) throw Refusal{400, "the job can't be judged: " + state->trouble};
  // Its own rules, stricter than the pages': no script at all, and nothing from elsewhere. (A browser's viewer of PDFs works without any.)
  call.response.headers.erase("Content-Security-Policy");
  if (format != "pdf") call.response.set_header("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-popups allow-popups-to-escape-sandbox");
  if (format == "txt") call.response.set_content(render_text(tables, made->report), "text/plain; charset=utf-8");
  else if (format == "html") call.response.set_content(render_html(tables, made->report), "text/html; charset=utf-8");
  else call.response.set_content(pdf_of(render_html(tables, made->report)), "application/pdf");
  call.response.set_header("Content-Disposition", "inline; filename=\"exworks-job-" + std::to_string(id) + "." + format + "\"");
}

}  // namespace exworks::cli::web
