#include <set>

#include "base/personal.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "book/sql.hpp"

namespace exworks {

namespace {

/// The entry without what says who somebody is.
std::optional<Fields> technical(const Entry& e) {
  if (e.kind == "photo" || (e.kind == "about" && is_personal_about(e.name))) return std::nullopt;
  if (!e.fields) return e.fields;
  Fields kept = *e.fields;
  std::erase_if(kept, [](const auto& field) { return is_personal(field.first); });
  return kept;
}

std::size_t forget_changes(SQLite::Database& db, std::int64_t job, const std::string& job_uid) {
  SQLite::Statement rows(db, std::string("SELECT ") + entry_columns + ", EXISTS (SELECT 1 FROM entry e WHERE e.change = c.id) FROM change c WHERE c.job = ? ORDER BY c.id");
  rows.bind(1, job);
  std::vector<std::pair<Entry, std::string>> all;
  while (rows.executeStep()) {
    all.emplace_back(entry_of(rows), rows.getColumn(7).getString());
    all.back().first.current = rows.getColumn(8).getInt() != 0;
  }
  rows.reset();
  std::size_t count = 0;
  for (auto& [e, uid] : all) {
    const auto kept = technical(e);
    if (kept == e.fields) continue;
    e.fields = kept;
    SQLite::Statement set(db, "UPDATE change SET fields = ?, forgotten = 1, digest = ? WHERE id = ?");
    if (kept) set.bind(1, encode(kept));
    set.bind(2, change_digest(uid, job_uid, e));
    set.bind(3, e.change);
    set.exec();
    if (e.current) make_current(db, job, e);
    ++count;
  }
  return count;
}

std::size_t forget_assessments(SQLite::Database& db, std::int64_t job, const std::function<void(StoredAssessment&)>& clean) {
  SQLite::Statement rows(db, std::string("SELECT ") + assessment_columns + " FROM assessment WHERE job = ?");
  rows.bind(1, job);
  std::vector<StoredAssessment> all;
  while (rows.executeStep()) all.push_back(assessment_of(rows));
  rows.reset();
  for (StoredAssessment& a : all) {
    clean(a);
    SQLite::Statement set(db, "UPDATE assessment SET inspection = ?, result = ?, digest = ? WHERE id = ?");
    SQLite::bind(set, a.inspection, a.result, assessment_digest(a), a.id);
    set.exec();
  }
  return all.size();
}

}  // namespace

Forgotten forget_job(Book& book, std::int64_t job, const std::function<void(StoredAssessment&)>& clean) {
  Forgotten out;
  SQLite::Database& db = book.database();
  const std::string uid = book.job(job).uid;
  std::set<std::string> photos;
  writing(db, book.path(), [&] {
    photos = photos_in_history(db, "job = " + std::to_string(job));
    for (const std::string& kept : photos_in_history(db, "job <> " + std::to_string(job))) photos.erase(kept);
    out.changes = forget_changes(db, job, uid);
    out.assessments = forget_assessments(db, job, clean);
    SQLite::Statement settled(db, "DELETE FROM conflict WHERE job = ?");
    settled.bind(1, job);
    settled.exec();
    // FTS5 keeps deleted words until its pages are merged: all are made anew.
    db.exec("INSERT INTO note(note) VALUES('rebuild')");
  });
  const PhotoFolder folder(book.photo_folder());
  for (const std::string& hash : photos) folder.remove(hash);
  folder.remove_leftovers();
  out.photos = photos.size();
  // What other rows left in freed parts of pages goes too.
  guarded(book.path(), [&] { db.exec("VACUUM"); });
  return out;
}

}  // namespace exworks
