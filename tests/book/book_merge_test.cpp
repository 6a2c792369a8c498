#include "base/file.hpp"
#include "book/book.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "book/schema.hpp"
#include "support.hpp"

/// Two books into one, forgetting a person, and books of an older version.
using namespace exworks;
using namespace exworks::test;

namespace {

Entry seen(const std::string& feature, const std::string& value, const std::string& note = "") {
  return {"observed", feature, Fields{{"value", value}, {"note", note}}, "", "", false, false, 0};
}

Entry about(const std::string& name, const std::string& value) { return {"about", name, Fields{{"value", value}}, "", "", false, false, 0}; }

std::string value_of(Book& book, std::int64_t job, const std::string& name) {
  for (const Entry& e : book.entries(job)) {
    if (e.name == name) return e.fields->at("value");
  }
  return "";
}

}  // namespace

TEST_CASE("Two inspectors' books become one, and what they disagree on is listed", "[book]") {
  const TemporaryFolder folder;
  Book a(folder.path() / "a.db", system_environment());
  const auto job = a.new_job({seen("grille", "five"), seen("lamps", "low"), seen("wipers", "one")}, "anna", std::nullopt);
  backup_book(a.path(), folder.path() / "b.db", false);
  Book b(folder.path() / "b.db", system_environment());
  a.record(job, {seen("grille", "nine"), seen("wipers", "two")}, "anna");
  b.record(job, {seen("grille", "seven"), seen("lamps", "high"), seen("wipers", "two")}, "ben");
  b.new_job({about("name", "b's own")}, "ben", std::nullopt);
  const std::string photo = std::string("\xff\xd8\xff\xe0", 4) + "b's photo";
  const std::string hash = PhotoFolder(b.photo_folder()).keep(photo);
  b.record(job, {{"photo", hash, Fields{}, "", "", false, false, 0}}, "ben");

  const Merged m = merge_book(a, b.path());
  CHECK(m.jobs == 1);
  CHECK(m.photos == 1);
  REQUIRE(m.conflicts.size() == 1);
  CHECK(m.conflicts[0].name == "grille");
  CHECK(m.conflicts[0].ours.fields->at("value") == "nine");
  CHECK(m.conflicts[0].theirs.fields->at("value") == "seven");
  CHECK(m.conflicts[0].theirs.by == "ben");
  CHECK(value_of(a, job, "grille") == "nine");
  CHECK(value_of(a, job, "lamps") == "high");
  CHECK(value_of(a, job, "wipers") == "two");
  CHECK(a.conflicts(job).size() == 1);
  CHECK(verify_book(a.path()) == std::vector<std::string>{});

  // Again: nothing more.
  const Merged again = merge_book(a, b.path());
  CHECK(again.jobs + again.changes + again.photos + again.assessments == 0);
  CHECK(again.conflicts.empty());

  // Anna settles it by saying the same once more; then b takes it without a conflict.
  CHECK(a.record(job, {seen("grille", "nine")}, "anna") == 1);
  CHECK(a.conflicts(job).empty());
  const Merged back = merge_book(b, a.path());
  CHECK(back.conflicts.empty());
  CHECK(value_of(b, job, "grille") == "nine");
  CHECK(verify_book(b.path()) == std::vector<std::string>{});
}

TEST_CASE("Forgetting removes the person from every byte and keeps the technical record", "[book]") {
  const TemporaryFolder folder;
  Book book(folder.path() / "book.db", system_environment());
  const auto job = book.new_job({about("owner", "Zebedee Quillfeather"), about("family", "one"), seen("grille", "nine", "Quillfeather says it was always so")}, "x", std::nullopt);
  book.record(job, {about("owner", "Mrs Quillfeather"), seen("grille", "nine", "no more")}, "x");
  const std::string photo = std::string("\xff\xd8\xff\xe0", 4) + "Q";
  book.record(job, {{"photo", PhotoFolder(book.photo_folder()).keep(photo), Fields{{"file", "Quillfeather.jpg"}}, "", "", false, false, 0}}, "x");
  StoredAssessment s;
  s.job = job;
  s.inspection = "<inspection>Quillfeather</inspection>";
  s.result = R"({"vehicle":"Quillfeather"})";
  book.add_assessments({{s, {{"grille", "original"}}}}, "x");
  REQUIRE(read_file(book.path()).find("Quillfeather") != std::string::npos);
  const Forgotten f = forget_job(book, job, [](StoredAssessment& a) { a.inspection.clear(), a.result = "{}"; });
  CHECK(f.photos == 1);
  CHECK(f.assessments == 1);
  CHECK(read_file(book.path()).find("uillfeather") == std::string::npos);
  CHECK(PhotoFolder(book.photo_folder()).names().empty());
  CHECK(value_of(book, job, "grille") == "nine");
  CHECK(book.job(job).family == "one");
  CHECK(book.job(job).owner.empty());
  Filter by_verdict, by_words;
  by_verdict.parts = {{"grille", "original"}};
  by_words.words = "quillfeather";
  CHECK(book.find(by_verdict).size() == 1);
  CHECK(book.find(by_words).empty());
  CHECK(verify_book(book.path()).empty());
}

TEST_CASE("A book of version 1 is brought up to date with all that it holds", "[book]") {
  // tests/data/book-version-1.db: two jobs and an assessment, written by the first version.
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  fs::copy_file(source_dir() / "tests/data/book-version-1.db", path);
  Book book(path, system_environment());
  CHECK(book.all_jobs().size() == 2);
  CHECK(book.job(1).reference == "order 12");
  CHECK(book.history(1).size() == 6);
  CHECK(value_of(book, 1, "grille") == "nine-bars");
  Filter words, number, verdict;
  words.words = "counted twice";
  CHECK(book.find(words).size() == 1);
  number.number = "ACV12873";
  CHECK(book.find(number).size() == 1);
  verdict.parts = {{"gearbox", "later change"}};
  CHECK(book.find(verdict).size() == 1);
  CHECK(book.record(1, {seen("lamps", "low")}, "x") == 1);
  CHECK(verify_book(path).empty());
}

TEST_CASE("A book of a later version is left alone", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  { Book book(path, system_environment()); }
  std::string bytes = read_file(path);
  bytes[63] = static_cast<char>(book_version + 1);  // user_version: bytes 60 to 63 of the header
  folder.write("book.db", bytes);
  try {
    Book book(path, system_environment());
    FAIL("opened");
  } catch (const FileError& e) {
    CHECK(e.what.find("the book has version 3; this program reads up to 2") != std::string::npos);
  }
  CHECK(read_file(path) == bytes);
}

TEST_CASE("A photo that was to be forgotten comes back neither with an old copy of the book nor in the next one", "[book]") {
  const TemporaryFolder folder;
  Book book(folder.path() / "a.db", system_environment());
  const std::string hash = PhotoFolder(book.photo_folder()).keep(std::string("\xff\xd8\xff\xe0", 4) + "a customer in the yard");
  const auto job = book.new_job({seen("grille", "five"), {"photo", hash, Fields{}, "", "", false, false, 0}}, "anna", std::nullopt);
  backup_book(book.path(), folder.path() / "before.db", false);
  backup_book(book.path(), folder.path() / "nightly.db", false);
  // A run that was killed while it took in a photo.
  folder.write("a.db.photos/" + hash + ".part", "half");
  forget_job(book, job, [](StoredAssessment&) {});
  CHECK(PhotoFolder(book.photo_folder()).names().empty());
  CHECK(merge_book(book, folder.path() / "before.db").photos == 0);
  CHECK(PhotoFolder(book.photo_folder()).names().empty());
  backup_book(book.path(), folder.path() / "nightly.db", true);
  CHECK(PhotoFolder(folder.path() / "nightly.db.photos").names().empty());
  CHECK(verify_book(folder.path() / "nightly.db").empty());
}

TEST_CASE("After a backup that was killed the next one is made", "[book]") {
  const TemporaryFolder folder;
  Book book(folder.path() / "a.db", system_environment());
  book.new_job({seen("grille", "five")}, "anna", std::nullopt);
  folder.write("copy.db.part", "half");
  std::filesystem::create_directory_symlink(folder.path() / "copy.db.photos", folder.path() / "copy.db.part.photos");
  backup_book(book.path(), folder.path() / "copy.db", false);
  CHECK(verify_book(folder.path() / "copy.db").empty());
}
