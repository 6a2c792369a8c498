#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/text.hpp"
#include "workshop/make_report.hpp"
#include "workshop/pdf.hpp"
#include "workshop/schemes.hpp"
#include "book/photos.hpp"
#include "base/sha256.hpp"
#include "web/api/api.hpp"
#include "web/api/edits.hpp"

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
  const Job job = context_.job(call.job());
  const Tables& t = context_.family(job.family);
  const std::string tap = call.parameter("tap"), feature = call.parameter("feature"), by = call.parameter("by");
  check_edit_name(tap);
  if (!feature.empty() && !t.feature_index.contains(feature)) throw Refusal{400, "the pack has no such feature; load the page again"};
  std::size_t bad = 0;
  if (by.size() > 60 || !is_clean_utf8(by, &bad)) throw Refusal{400, "'by' is no plain text; write your initials"};
  const std::string& bytes = call.request.body;
  if (photo_type(bytes).empty()) throw Refusal{415, "this is no picture; send a JPEG, PNG, TIFF, WebP or HEIC file"};
  Fields fields{{"file", file_name(call.parameter("name"))}};
  if (!feature.empty()) fields["feature"] = feature;
  if (const std::string taken = photo_taken(bytes); !taken.empty()) fields["taken"] = taken;
  // The bytes are on the disk before the book names them.
  const PhotoFolder folder(context_.with_book([](Book& book) { return book.photo_folder(); }));
  const std::string hash = folder.keep(bytes);
  Entry entry{"photo", hash, fields, "", "", false, false, 0, tap};
  const std::int64_t change = context_.with_book([&](Book& book) {
    book.record_edits(job.id, {{entry, 0}}, by);
    return book.last_change(job.id);
  });
  return {{"photo", hash}, {"change", change}};
}

void Api::photo(const Call& call) {
  const std::string& hash = call.parts.at(1);
  std::filesystem::path folder;
  const bool known = is_sha256(hash) && context_.with_book([&](Book& book) {
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

void Api::report(const Call& call) {
  const std::int64_t id = as_number(call.parts.at(1), "the job");
  const std::string format = call.parameter("format").empty() ? "html" : call.parameter("format"), kind = call.parameter("kind");
  if (format != "html" && format != "pdf" && format != "txt") throw Refusal{400, "a report is html, pdf or txt; choose one of them"};
  if (!kind.empty() && kind != "pre-purchase" && kind != "intake" && kind != "owner") throw Refusal{400, "there is no report of this kind; choose pre-purchase, intake or owner"};
  const Job job = context_.job(id);
  const Tables& pack = context_.family(job.family);
  Diagnostics diagnostics;
  auto subject = context_.with_book([&](Book& book) { return subject_of_job(book, id, diagnostics); });
  const ReportOptions options = report_options(kind, "", "", "");
  const auto made = subject ? make_report(pack, std::move(*subject), {options, {}, false, std::nullopt, schemes_for(context_.schemes(), options.region)}, diagnostics) : std::nullopt;
  if (!made) throw Refusal{400, "the job can't be judged: " + context_.state(id)->trouble};
  // Its own rules, stricter than the pages': no script at all, and nothing from elsewhere. (A browser's viewer of PDFs works without any.)
  call.response.headers.erase("Content-Security-Policy");
  if (format != "pdf") call.response.set_header("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-popups allow-popups-to-escape-sandbox");
  if (format == "txt") call.response.set_content(made->text, "text/plain; charset=utf-8");
  else if (format == "html") call.response.set_content(made->html, "text/html; charset=utf-8");
  else {
    // One at a time: each takes a program of its own, and a good part of a small computer.
    const std::unique_lock alone(pdf_, std::chrono::seconds(20));
    if (!alone) throw Refusal{503, "other PDFs are being made; ask again in a moment", 10};
    call.response.set_content(pdf_of(made->html), "application/pdf");
  }
  call.response.set_header("Content-Disposition", "inline; filename=\"exworks-job-" + std::to_string(id) + "." + format + "\"");
}

}  // namespace exworks::cli::web
