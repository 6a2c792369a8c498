#include <set>

#include "base/file.hpp"
#include "base/sha256.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "book/schema.hpp"
#include "book/sql.hpp"

namespace exworks {

namespace {

std::optional<std::int64_t> id_by_uid(SQLite::Database& db, const std::string& table, const std::string& uid) {
  SQLite::Statement find(db, "SELECT id FROM " + table + " WHERE uid = ?");
  find.bind(1, uid);
  if (!find.executeStep()) return std::nullopt;
  return find.getColumn(0).getInt64();
}

std::string uid_of(SQLite::Database& db, const std::string& table, std::int64_t id) {
  SQLite::Statement find(db, "SELECT uid FROM " + table + " WHERE id = ?");
  find.bind(1, id);
  return find.executeStep() ? find.getColumn(0).getString() : std::string();
}

/// One merge, from `theirs` into `ours`, in one transaction of ours.
class Merger {
 public:
  Merger(SQLite::Database& ours, SQLite::Database& theirs) : ours_(ours), theirs_(theirs) {}

  Merged run() {
    SQLite::Statement jobs(theirs_, "SELECT j.id, j.uid, v.uid FROM job j JOIN vehicle v ON v.id = j.vehicle ORDER BY j.id");
    while (jobs.executeStep()) take_job(jobs.getColumn(0).getInt64(), jobs.getColumn(1).getString(), jobs.getColumn(2).getString());
    return merged_;
  }

 private:
  std::int64_t own_job(const std::string& uid, const std::string& vehicle_uid) {
    if (const auto known = id_by_uid(ours_, "job", uid)) return *known;
    auto vehicle = id_by_uid(ours_, "vehicle", vehicle_uid);
    if (!vehicle) {
      SQLite::Statement add(ours_, "INSERT INTO vehicle(uid) VALUES(?)");
      add.bind(1, vehicle_uid);
      add.exec();
      vehicle = ours_.getLastInsertRowid();
    }
    SQLite::Statement add(ours_, "INSERT INTO job(uid, vehicle) VALUES(?,?)");
    SQLite::bind(add, uid, *vehicle);
    add.exec();
    ++merged_.jobs;
    return ours_.getLastInsertRowid();
  }

  void take_job(std::int64_t their_job, const std::string& uid, const std::string& vehicle_uid) {
    const std::int64_t job = own_job(uid, vehicle_uid);
    // The uids that each side had before: whose head lies in the other's past is merely older.
    const std::set<std::string> our_past = uids(ours_, job), their_past = uids(theirs_, their_job);
    take_changes(job, their_job, uid, our_past);
    SQLite::Statement heads(theirs_, "SELECT c.uid FROM entry e JOIN change c ON c.id = e.change WHERE e.job = ? ORDER BY e.kind, e.name");
    heads.bind(1, their_job);
    while (heads.executeStep()) take_head(job, heads.getColumn(0).getString(), our_past, their_past);
    take_assessments(job, their_job);
  }

  std::set<std::string> uids(SQLite::Database& db, std::int64_t job) {
    std::set<std::string> out;
    SQLite::Statement rows(db, "SELECT uid FROM change WHERE job = ?");
    rows.bind(1, job);
    while (rows.executeStep()) out.insert(rows.getColumn(0).getString());
    return out;
  }

  void take_changes(std::int64_t job, std::int64_t their_job, const std::string& job_uid, const std::set<std::string>& our_past) {
    SQLite::Statement rows(theirs_, std::string("SELECT ") + entry_columns + " FROM change c WHERE c.job = ? ORDER BY c.id");
    rows.bind(1, their_job);
    while (rows.executeStep()) {
      const std::string uid = rows.getColumn(7).getString();
      if (our_past.count(uid) != 0) continue;
      append_change(ours_, job, job_uid, uid, entry_of(rows));
      ++merged_.changes;
    }
  }

  Entry by_id(std::int64_t id) {
    SQLite::Statement row(ours_, std::string("SELECT ") + entry_columns + " FROM change c WHERE c.id = ?");
    row.bind(1, id);
    row.executeStep();
    return entry_of(row);
  }

  void take_head(std::int64_t job, const std::string& their_uid, const std::set<std::string>& our_past, const std::set<std::string>& their_past) {
    if (our_past.count(their_uid) != 0) return;  // theirs is what we had, or is older
    const Entry theirs = by_id(*id_by_uid(ours_, "change", their_uid));
    SQLite::Statement find(ours_, "SELECT change FROM entry WHERE job = ? AND kind = ? AND name = ?");
    SQLite::bind(find, job, theirs.kind, theirs.name);
    if (find.executeStep()) {
      const Entry ours = by_id(find.getColumn(0).getInt64());
      const bool newer = their_past.count(uid_of(ours_, "change", ours.change)) != 0;
      if (!newer && ours.fields == theirs.fields) return;
      if (!newer) return note_conflict(job, ours, theirs);
      SQLite::Statement settled(ours_, "DELETE FROM conflict WHERE job = ? AND kind = ? AND name = ?");
      SQLite::bind(settled, job, theirs.kind, theirs.name);
      settled.exec();
    }
    find.reset();
    make_current(ours_, job, theirs);
  }

  void note_conflict(std::int64_t job, const Entry& ours, const Entry& theirs) {
    SQLite::Statement add(ours_, "INSERT OR IGNORE INTO conflict(job, kind, name, ours, theirs) VALUES(?,?,?,?,?)");
    SQLite::bind(add, job, theirs.kind, theirs.name, ours.change, theirs.change);
    add.exec();
    merged_.conflicts.push_back({job, theirs.kind, theirs.name, ours, theirs});
  }

  void take_assessments(std::int64_t job, std::int64_t their_job) {
    SQLite::Statement rows(theirs_, std::string("SELECT ") + assessment_columns + " FROM assessment WHERE job = ? ORDER BY id");
    rows.bind(1, their_job);
    while (rows.executeStep()) {
      StoredAssessment a = assessment_of(rows);
      if (id_by_uid(ours_, "assessment", a.uid)) continue;
      a.job = job;
      append_assessment(ours_, a);
      ++merged_.assessments;
    }
    SQLite::Statement latest(ours_, "UPDATE job SET assessment = (SELECT id FROM assessment WHERE job = ?1 ORDER BY at DESC, id DESC LIMIT 1) WHERE id = ?1");
    latest.bind(1, job);
    latest.exec();
    take_verdicts(job, their_job);
  }

  void take_verdicts(std::int64_t job, std::int64_t their_job) {
    SQLite::Statement same(ours_, "SELECT a.uid FROM job j JOIN assessment a ON a.id = j.assessment WHERE j.id = ?");
    same.bind(1, job);
    SQLite::Statement their(theirs_, "SELECT a.uid FROM job j JOIN assessment a ON a.id = j.assessment WHERE j.id = ?");
    their.bind(1, their_job);
    if (!same.executeStep() || !their.executeStep() || same.getColumn(0).getString() != their.getColumn(0).getString()) return;
    SQLite::Statement drop(ours_, "DELETE FROM verdict WHERE job = ?");
    drop.bind(1, job);
    drop.exec();
    SQLite::Statement rows(theirs_, "SELECT part, verdict FROM verdict WHERE job = ?");
    rows.bind(1, their_job);
    while (rows.executeStep()) {
      SQLite::Statement add(ours_, "INSERT OR IGNORE INTO verdict VALUES(?,?,?)");
      SQLite::bind(add, job, rows.getColumn(0).getString(), rows.getColumn(1).getString());
      add.exec();
    }
  }

  SQLite::Database& ours_;
  SQLite::Database& theirs_;
  Merged merged_;
};

/// The photos that the other book shows, but those that were forgotten here: what somebody asked us to forget doesn't come back.
std::set<std::string> photos_named(SQLite::Database& ours, SQLite::Database& theirs) {
  std::set<std::string> out;
  SQLite::Statement shown(theirs, "SELECT DISTINCT e.name, c.uid FROM entry e JOIN change c ON c.id = e.change WHERE e.kind = 'photo' AND c.fields IS NOT NULL");
  SQLite::Statement forgotten(ours, "SELECT 1 FROM change WHERE uid = ? AND forgotten = 1");
  while (shown.executeStep()) {
    const std::string name = shown.getColumn(0).getString();
    forgotten.reset();
    forgotten.bind(1, shown.getColumn(1).getString());
    if (is_sha256(name) && !forgotten.executeStep()) out.insert(name);
  }
  return out;
}

}  // namespace

Merged merge_book(Book& book, const std::filesystem::path& other) {
  std::error_code code;
  if (std::filesystem::equivalent(book.path(), other, code)) throw FileError{other.string() + ": this is the book itself", "name the other book"};
  const auto wrong = verify_book(other);
  if (!wrong.empty()) throw FileError{other.string() + ": the book is not whole (" + wrong.front() + ")", "'exworks book verify --book " + other.string() + "' lists all; nothing was changed"};
  Book theirs = Book::read_only(other);
  if (guarded(other, [&] { return theirs.database().execAndGet("PRAGMA user_version").getInt(); }) != book_version) {
    throw FileError{other.string() + ": the book is of an older version", "run 'exworks job list --book " + other.string() + "' once: it brings the book up to date"};
  }
  // Photos first: a book must never name one that isn't there.
  std::size_t photos = 0;
  const PhotoFolder ours(book.photo_folder()), their_photos(theirs.photo_folder());
  for (const std::string& name : photos_named(book.database(), theirs.database())) {
    if (ours.wrong_with(name).empty()) continue;
    ours.keep(read_file(their_photos.file(name)));
    ++photos;
  }
  Merged merged = writing(book.database(), book.path(), [&] { return Merger(book.database(), theirs.database()).run(); });
  merged.photos = photos;
  return merged;
}

}  // namespace exworks
