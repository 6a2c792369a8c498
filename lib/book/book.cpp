#include "book/book.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <csignal>
#include <ctime>
#include <random>

#include "base/file.hpp"
#include "book/schema.hpp"
#include "book/sql.hpp"

namespace exworks {

namespace fs = std::filesystem;

Environment system_environment() {
  Environment s;
  s.now = [] {
    const std::time_t now = std::time(nullptr);
    std::tm utc{};
    gmtime_r(&now, &utc);
    char text[32];
    std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &utc);
    return std::string(text);
  };
  s.uid = [] {
    std::random_device random;
    std::string out;
    for (int i = 0; i < 4; ++i) {
      char part[9];
      std::snprintf(part, sizeof part, "%08x", random());
      out += part;
    }
    return out;
  };
  return s;
}

namespace {

/// The file is made with mode 0600 before SQLite sees it; SQLite gives its journal the same.
void create_private(const fs::path& path) {
  std::error_code code;
  if (path.has_parent_path()) {
    const bool there = fs::exists(path.parent_path(), code);
    if (!there && fs::create_directories(path.parent_path(), code)) fs::permissions(path.parent_path(), fs::perms::owner_all, code);
  }
  const int file = ::open(path.c_str(), O_CREAT | O_RDWR | O_CLOEXEC, 0600);
  if (file < 0) {
    if (fs::exists(path, code) && ::access(path.c_str(), R_OK) == 0) return;
    throw FileError{path.string() + ": the book can't be made or written", "check the folder, its rights, and that the disk isn't read-only; or name another book with --book"};
  }
  ::close(file);
}

int version_of(SQLite::Database& db, const fs::path& path) {
  // One reading of all three: between two, another process may have made the tables of a new book.
  SQLite::Transaction one_reading(db);
  const int id = db.execAndGet("PRAGMA application_id").getInt();
  const int version = db.execAndGet("PRAGMA user_version").getInt();
  const bool empty = db.execAndGet("SELECT count(*) FROM sqlite_master").getInt() == 0;
  one_reading.commit();
  if (id != book_application_id && !empty) throw FileError{path.string() + ": this is a database of another program", "name a job book with --book"};
  if (version < 0 || (version == 0 && !empty)) {
    throw FileError{path.string() + ": the book is damaged: its version is " + std::to_string(version), "restore a backup with `exworks book restore`"};
  }
  if (version > book_version) {
    throw FileError{path.string() + ": the book has version " + std::to_string(version) + "; this program reads up to " + std::to_string(book_version), "update the program"};
  }
  return version;
}

}  // namespace

Book::Book(const fs::path& path, Environment environment) : path_(path), environment_(std::move(environment)) {
  // At a limit on file size the write shall fail and be reported, not end the program.
  create_private(path);
  guarded(path, [&] {
    db_ = connect(path, SQLite::OPEN_READWRITE);
    if (version_of(*db_, path) == book_version) return;
    writing(*db_, path, [&] { migrate(*db_, book_version); });
  });
}

Book Book::read_only(const fs::path& path) {
  Book book;
  book.path_ = path;
  if (!fs::is_regular_file(path)) throw FileError{path.string() + ": there is no such book", "check the name and the folder"};
  guarded(path, [&] {
    book.db_ = connect(path, SQLite::OPEN_READONLY);
    version_of(*book.db_, path);
  });
  return book;
}

Book::~Book() = default;
Book::Book(Book&&) noexcept = default;

fs::path Book::photo_folder() const { return path_.string() + ".photos"; }

std::int64_t Book::new_job(const std::vector<Entry>& entries, const std::string& by, std::optional<std::int64_t> same_vehicle_as) {
  return writing(*db_, path_, [&] {
    std::int64_t vehicle = 0;
    if (same_vehicle_as) {
      vehicle = vehicle_of(*db_, *same_vehicle_as);
    } else {
      SQLite::Statement add(*db_, "INSERT INTO vehicle(uid) VALUES(?)");
      add.bind(1, environment_.uid());
      add.exec();
      vehicle = db_->getLastInsertRowid();
    }
    const std::string uid = environment_.uid(), at = environment_.now();
    SQLite::Statement add(*db_, "INSERT INTO job(uid, vehicle, updated) VALUES(?,?,?)");
    SQLite::bind(add, uid, vehicle, at);
    add.exec();
    const std::int64_t job = db_->getLastInsertRowid();
    for (Entry e : entries) {
      e.at = at;
      e.by = by;
      e.change = append_change(*db_, job, uid, e.uid.empty() ? environment_.uid() : e.uid, e);
      make_current(*db_, job, e);
    }
    return job;
  });
}

std::size_t Book::record(std::int64_t job, const std::vector<Entry>& entries, const std::string& by) {
  return writing(*db_, path_, [&] {
    const std::string uid = this->job(job).uid, at = environment_.now();
    std::size_t changed = 0;
    for (Entry e : entries) {
      SQLite::Statement now(*db_, "SELECT c.fields FROM entry e JOIN change c ON c.id = e.change WHERE e.job = ? AND e.kind = ? AND e.name = ?");
      SQLite::bind(now, job, e.kind, e.name);
      const bool known = now.executeStep();
      const std::optional<Fields> before = known ? decode(now.getColumn(0)) : std::nullopt;
      now.reset();
      SQLite::Statement disputed(*db_, "DELETE FROM conflict WHERE job = ? AND kind = ? AND name = ?");
      SQLite::bind(disputed, job, e.kind, e.name);
      // An entry that settles a dispute is written even when it repeats ours: it says that somebody decided.
      if (before == e.fields && disputed.exec() == 0) continue;
      disputed.reset();
      disputed.exec();
      e.at = at;
      e.by = by;
      e.change = append_change(*db_, job, uid, environment_.uid(), e);
      make_current(*db_, job, e);
      ++changed;
    }
    return changed;
  });
}

std::vector<Entry> Book::entries(std::int64_t job) {
  return guarded(path_, [&] {
    vehicle_of(*db_, job);
    SQLite::Statement find(*db_, std::string("SELECT ") + entry_columns + " FROM entry e JOIN change c ON c.id = e.change WHERE e.job = ? AND c.fields IS NOT NULL ORDER BY e.kind, e.name");
    find.bind(1, job);
    std::vector<Entry> out;
    while (find.executeStep()) {
      out.push_back(entry_of(find));
      out.back().current = true;
    }
    return out;
  });
}

std::vector<Entry> Book::history(std::int64_t job) {
  return guarded(path_, [&] {
    vehicle_of(*db_, job);
    SQLite::Statement find(*db_, std::string("SELECT ") + entry_columns + ", e.change IS NOT NULL FROM change c LEFT JOIN entry e ON e.change = c.id AND e.job = c.job AND e.kind = c.kind AND e.name = c.name WHERE c.job = ? ORDER BY c.at, c.id");
    find.bind(1, job);
    std::vector<Entry> out;
    while (find.executeStep()) {
      out.push_back(entry_of(find));
      out.back().current = find.getColumn(8).getInt() != 0;
    }
    return out;
  });
}

}  // namespace exworks
