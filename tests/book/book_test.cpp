#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "base/file.hpp"
#include "book/book.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "base/sha256.hpp"
#include "support.hpp"

/// The job book: nothing that was acknowledged is ever lost.
using namespace exworks;
using namespace exworks::test;

namespace {

Entry seen(const std::string& feature, const std::string& value, const std::string& note = "") {
  Fields fields{{"value", value}};
  if (!note.empty()) fields["note"] = note;
  return {"observed", feature, fields, "", "", false, false, 0};
}

Entry about(const std::string& name, const std::string& value) { return {"about", name, Fields{{"value", value}}, "", "", false, false, 0}; }

std::string value_of(Book& book, std::int64_t job, const std::string& name) {
  for (const Entry& e : book.entries(job)) {
    if (e.name == name && e.fields->count("value")) return e.fields->at("value");
  }
  return "";
}

/// What a FileError says, or "" when nothing is thrown.
template <class Work>
std::string error_of(Work&& work) {
  try {
    work();
    return "";
  } catch (const FileError& e) {
    return e.what + "; " + e.remedy;
  }
}

unsigned mode_of(const fs::path& file) {
  struct stat s {};
  stat(file.c_str(), &s);
  return s.st_mode & 0777;
}

const std::string jpeg = std::string("\xff\xd8\xff\xe0", 4) + "a photo";

}  // namespace

TEST_CASE("SHA-256 gives the published digests", "[book]") {
  // FIPS 180-4 examples.
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("A book keeps what was thought before, with who and when", "[book]") {
  const TemporaryFolder folder;
  Environment world = system_environment();
  int second = 10;
  world.now = [&] { return "2026-11-20T10:00:" + std::to_string(second++) + "Z"; };
  Book book(folder.path() / "book.db", world);
  const auto job = book.new_job({about("family", "aldermoor-carrier"), seen("grille", "five-bars", "from the road")}, "anna", std::nullopt);
  CHECK(book.record(job, {seen("grille", "nine-bars", "counted")}, "ben") == 1);
  CHECK(book.record(job, {seen("grille", "nine-bars", "counted")}, "carl") == 0);
  CHECK(book.record(job, {{"observed", "grille", std::nullopt, "", "", false, false, 0}}, "anna") == 1);
  CHECK(value_of(book, job, "grille").empty());
  const auto history = book.history(job);
  REQUIRE(history.size() == 4);
  CHECK(history[1].fields->at("value") == "five-bars");
  CHECK(history[1].by == "anna");
  CHECK(history[2].fields->at("note") == "counted");
  CHECK(history[2].at == "2026-11-20T10:00:11Z");
  CHECK_FALSE(history[2].current);
  CHECK_FALSE(history[3].fields);
  CHECK(history[3].current);
  CHECK(verify_book(book.path()).empty());
  CHECK(mode_of(book.path()) == 0600);
}

TEST_CASE("What a book can't do is said with what to do", "[book]") {
  const TemporaryFolder folder;
  Book book(folder.path() / "book.db", system_environment());
  CHECK(error_of([&] { book.entries(7); }) == "the book has no job 7; 'exworks job list' shows those that it has");
  const auto text = folder.write("notes.txt", std::string(2000, 'x'));
  CHECK(error_of([&] { Book(text, system_environment()); }) == text.string() + ": the book is damaged; run 'exworks book verify', then 'exworks book restore' with a good backup");
  // /proc takes no new files, even from root.
  const std::string readonly = error_of([] { Book("/proc/exworks-book.db", system_environment()); });
  CHECK(readonly.find("can't be made or written; check the folder") != std::string::npos);
}

TEST_CASE("Jobs are found by family, number, reference, date, verdict and words", "[book]") {
  const TemporaryFolder folder;
  Book book(folder.path() / "book.db", system_environment());
  const auto a = book.new_job({about("family", "one"), about("reference", "R 1"), about("owner", "Ann"), about("date", "2026-11-20"), {"number", "chassis", Fields{{"text", "AC V 12873"}}, "", "", false, false, 0}}, "x", std::nullopt);
  const auto b = book.new_job({about("family", "two"), about("date", "2025-03"), seen("wipers", "two", "drilled through the pâint")}, "x", std::nullopt);
  StoredAssessment s;
  s.job = b;
  s.result = "{}";
  book.add_assessments({{s, {{"gearbox", "later change"}, {"casing", "later change"}}}}, "x");
  const auto ids = [&](Filter f) {
    std::vector<std::int64_t> out;
    for (const Job& j : book.find(f)) out.push_back(j.id);
    return out;
  };
  using Ids = std::vector<std::int64_t>;
  Filter f;
  CHECK(ids(f) == Ids{b, a});
  f.family = "one";
  CHECK(ids(f) == Ids{a});
  f = {};
  f.number = "ac-v 128";
  CHECK(ids(f) == Ids{a});
  f = {};
  f.reference = "R 1";
  f.owner = "Ann";
  CHECK(ids(f) == Ids{a});
  f = {};
  f.date_from = f.date_to = "2025";
  CHECK(ids(f) == Ids{b});
  f = {};
  f.date_from = f.date_to = "2026-11";
  CHECK(ids(f) == Ids{a});
  f = {};
  f.parts = {{"gearbox", "later change"}};
  CHECK(ids(f) == Ids{b});
  f = {};
  f.words = "DRILLED paint";
  CHECK(ids(f) == Ids{b});
  f.words = "\" OR NEAR( *";
  CHECK(ids(f).empty());
  // A note that was replaced is no longer found; the history still has it.
  book.record(b, {seen("wipers", "one")}, "x");
  f.words = "drilled";
  CHECK(ids(f).empty());
}

TEST_CASE("A disk that is full costs nothing that was acknowledged", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  std::int64_t job = 0;
  {
    Book book(path, system_environment());
    job = book.new_job({seen("grille", "nine-bars")}, "x", std::nullopt);
  }
  const pid_t child = fork();
  if (child == 0) {
    const rlimit limit{300'000, RLIM_INFINITY};
    setrlimit(RLIMIT_FSIZE, &limit);
    std::signal(SIGXFSZ, SIG_IGN);  // as main does: a library leaves the signals of its process alone
    Book book(path, system_environment());
    int kept = 0;
    const std::string error = error_of([&] {
      for (; kept < 10'000; ++kept) book.record(job, {seen("feature-" + std::to_string(kept), std::string(500, 'v'))}, "x");
    });
    // The same program goes on once there is room.
    const rlimit more{RLIM_INFINITY, RLIM_INFINITY};
    setrlimit(RLIMIT_FSIZE, &more);
    const bool after = book.record(job, {seen("after", "yes")}, "x") == 1;
    std::ofstream(folder.path() / "child") << kept << ' ' << after << ' ' << error;
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  REQUIRE(WIFEXITED(status));
  std::ifstream in(folder.path() / "child");
  int kept = 0, after = 0;
  std::string error;
  in >> kept >> after;
  std::getline(in, error);
  INFO(error);
  CHECK(kept > 10);
  CHECK(kept < 10'000);
  CHECK(after == 1);
  CHECK(error.find("nothing was changed") != std::string::npos);
  CHECK(error.find("disk") != std::string::npos);
  Book book(path, system_environment());
  CHECK(static_cast<int>(book.entries(job).size()) == kept + 2);
  CHECK(verify_book(path).empty());
}

TEST_CASE("A book whose version can't be is called damaged", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  { const Book book(path, system_environment()); }
  // The user version stands in the header of an SQLite file, at byte 60, big-endian (SQLite's file format, section 1.3).
  for (const std::string& bytes : {std::string(4, '\xff'), std::string(4, '\0')}) {
    std::string text = read_file(path);
    text.replace(60, 4, bytes);
    write_file(path, text);
    const std::string error = error_of([&] { Book book(path, system_environment()); });
    CHECK(error.find(bytes[0] == '\0' ? "the book is damaged: its version is 0" : "the book is damaged: its version is -1") != std::string::npos);
  }
}

TEST_CASE("Two processes that write at once lose nothing", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  constexpr int writers = 4, each = 60;
  std::vector<pid_t> children;
  for (int w = 0; w < writers; ++w) {
    children.push_back(fork());
    if (children.back() != 0) continue;
    // They also race to make the book.
    const std::string error = error_of([&] {
      Book book(path, system_environment());
      const auto job = book.new_job({about("reference", "writer " + std::to_string(w))}, "x", std::nullopt);
      for (int i = 0; i < each; ++i) book.record(job, {seen("f" + std::to_string(i), "v")}, "x");
    });
    _exit(error.empty() ? 0 : 1);
  }
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  }
  Book book(path, system_environment());
  const auto jobs = book.all_jobs();
  CHECK(jobs.size() == writers);
  for (const auto job : jobs) CHECK(book.entries(job).size() == each + 1);
  CHECK(verify_book(path).empty());
}

TEST_CASE("A damaged page is found, and never copied over a good backup", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db", backup = folder.path() / "backup.db";
  {
    Book book(path, system_environment());
    const auto job = book.new_job({}, "x", std::nullopt);
    std::vector<Entry> entries;
    for (int i = 0; i < 300; ++i) entries.push_back(seen("f" + std::to_string(i), "v", "a note of some length, so that there are pages"));
    book.record(job, entries, "x");
  }
  backup_book(path, backup, false);
  CHECK(mode_of(backup) == 0600);
  const std::string good = read_file(backup);
  CHECK(error_of([&] { backup_book(path, backup, false); }).find("give --overwrite") != std::string::npos);
  const std::string whole = read_file(path);
  int found = 0, tried = 0;
  for (std::size_t page = 1; page * 4096 < whole.size(); page += 7) {
    std::string bad = whole;
    for (std::size_t i = 0; i < 4096; i += 8) bad[page * 4096 + i] = static_cast<char>(bad[page * 4096 + i] ^ 0x55);
    folder.write("book.db", bad);
    ++tried;
    found += verify_book(path).empty() ? 0 : 1;
    CHECK(error_of([&] { backup_book(path, backup, true); }).find("not whole") != std::string::npos);
  }
  CHECK(tried > 3);
  CHECK(found == tried);
  CHECK(read_file(backup) == good);
  // One letter inside a note is no damage to SQLite; the digest of the entry finds it.
  std::string bad = whole;
  bad[whole.rfind("of some length")] = 'O';
  folder.write("book.db", bad);
  CHECK_FALSE(verify_book(path).empty());
  const auto aside = restore_book(backup, path, "2026-11-20T10:00:00Z");
  CHECK(fs::exists(aside));
  CHECK(verify_book(path).empty());
  CHECK(Book(path, system_environment()).entries(1).size() == 300);
}

TEST_CASE("Photos are kept once, as they were, and a changed or missing one is found", "[book]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  Book book(path, system_environment());
  const PhotoFolder photos(book.photo_folder());
  const std::string hash = photos.keep(jpeg);
  CHECK(photos.keep(jpeg) == hash);
  CHECK(photos.names().size() == 1);
  CHECK(read_file(photos.file(hash)) == jpeg);
  CHECK(mode_of(photos.file(hash)) == 0600);
  CHECK(mode_of(book.photo_folder()) == 0700);
  book.new_job({{"photo", hash, Fields{{"file", "a.jpg"}}, "", "", false, false, 0}}, "x", std::nullopt);
  CHECK(verify_book(path).empty());
  std::ofstream(photos.file(hash), std::ios::app) << "edited";
  REQUIRE(verify_book(path).size() == 1);
  CHECK(verify_book(path).front() == "job 1: photo " + hash + " was changed after it was taken in");
  photos.remove(hash);
  CHECK(verify_book(path).front() == "job 1: photo " + hash + " is missing");
  photos.keep(jpeg);
  backup_book(path, folder.path() / "copy.db", false);
  CHECK(read_file(PhotoFolder((folder.path() / "copy.db.photos")).file(hash)) == jpeg);
}

TEST_CASE("EXIF's date is read, and rubbish gives none", "[book]") {
  // A little-endian EXIF block with DateTime alone, written from the Exif 2.3 specification.
  std::string tiff("II*\0\x08\0\0\0\x01\0\x32\x01\x02\0\x14\0\0\0\x1a\0\0\0\0\0\0\0", 26);
  tiff += std::string("2026:11:20 10:15:00\0", 20);
  const std::string body = std::string("Exif\0\0", 6) + tiff;
  const std::size_t size = body.size() + 2;
  const std::string photo = std::string("\xff\xd8\xff\xe1", 4) + static_cast<char>(size >> 8) + static_cast<char>(size & 255) + body + "\xff\xd9";
  CHECK(photo_taken(photo) == "2026-11-20T10:15:00");
  CHECK(photo_taken(jpeg).empty());
  CHECK(photo_taken("").empty());
  CHECK(photo_taken(photo.substr(0, 30)).empty());
  // Fourteen digits and something else between them is no date of a camera (Exif 2.32, 4.6.5).
  for (const char* odd : {"2026:11:20\x1b" "10:15:00", "2026\xff" "11:20 10:15:00", "20261120:: 10:15:00"}) {
    std::string changed = photo;
    const std::size_t at = changed.find("2026:11:20 10:15:00");
    REQUIRE(at != std::string::npos);
    changed.replace(at, 19, odd);
    INFO(odd);
    CHECK(photo_taken(changed).empty());
  }
}
