#include <sqlite3.h>
#include <unistd.h>

#include "base/file.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "book/schema.hpp"
#include "base/sha256.hpp"
#include "book/sql.hpp"

namespace exworks {

namespace {

void check_pages(SQLite::Database& db, std::vector<std::string>& wrong) {
  SQLite::Statement check(db, "PRAGMA integrity_check(20)");
  while (check.executeStep()) {
    const std::string line = check.getColumn(0).getString();
    if (line != "ok") wrong.push_back("the file is damaged: " + line);
  }
  SQLite::Statement keys(db, "PRAGMA foreign_key_check");
  if (keys.executeStep()) wrong.push_back("a row of '" + keys.getColumn(0).getString() + "' points at one that isn't there");
}

void check_changes(SQLite::Database& db, std::vector<std::string>& wrong) {
  SQLite::Statement rows(db, std::string("SELECT ") + entry_columns + ", c.digest, j.uid, c.job FROM change c JOIN job j ON j.id = c.job ORDER BY c.id");
  while (rows.executeStep()) {
    const Entry e = entry_of(rows);
    if (change_digest(rows.getColumn(7).getString(), rows.getColumn(9).getString(), e) != rows.getColumn(8).getString()) {
      wrong.push_back("job " + rows.getColumn(10).getString() + ": entry " + std::to_string(e.change) + " (" + e.kind + " " + e.name + ") isn't what was written");
    }
  }
}

void check_assessments(SQLite::Database& db, std::vector<std::string>& wrong) {
  SQLite::Statement rows(db, std::string("SELECT ") + assessment_columns + ", digest FROM assessment ORDER BY id");
  while (rows.executeStep()) {
    const StoredAssessment a = assessment_of(rows);
    if (assessment_digest(a) != rows.getColumn(12).getString()) wrong.push_back("job " + std::to_string(a.job) + ": assessment " + std::to_string(a.id) + " isn't what was written");
  }
}

/// What is kept twice, for speed, must say the same.
void check_copies(SQLite::Database& db, std::vector<std::string>& wrong) {
  SQLite::Statement lost(db, "SELECT DISTINCT c.job FROM change c LEFT JOIN entry e ON e.job = c.job AND e.kind = c.kind AND e.name = c.name WHERE e.change IS NULL");
  while (lost.executeStep()) wrong.push_back("job " + lost.getColumn(0).getString() + ": an entry of the history is not shown as holding or replaced");
  for (const std::string column : {"family", "name", "reference", "owner", "date", "purpose", "state"}) {
    SQLite::Statement other(db, "SELECT j.id FROM job j LEFT JOIN entry e ON e.job = j.id AND e.kind = 'about' AND e.name = '" + column +
                                    "' LEFT JOIN change c ON c.id = e.change WHERE j." + column + " <> coalesce(json_extract(c.fields, '$.value'), '')");
    while (other.executeStep()) wrong.push_back("job " + other.getColumn(0).getString() + ": the list shows another " + column + " than the history");
  }
}

/// The notes that search reads are copies too.
void check_notes(SQLite::Database& db, std::vector<std::string>& wrong) {
  if (db.execAndGet("PRAGMA user_version").getInt() < 2) return;
  SQLite::Statement other(db,
                          "SELECT c.job FROM entry e JOIN change c ON c.id = e.change LEFT JOIN note n ON n.rowid = c.id WHERE coalesce(n.text, '') <> "
                          "coalesce(json_extract(c.fields, CASE WHEN c.kind = 'about' AND c.name = 'note' THEN '$.value' ELSE '$.note' END), '') "
                          "UNION SELECT n.job FROM note n LEFT JOIN entry e ON e.change = n.rowid WHERE e.change IS NULL");
  while (other.executeStep()) wrong.push_back("job " + other.getColumn(0).getString() + ": search reads another note than the history holds");
}

void check_photos(SQLite::Database& db, const PhotoFolder& folder, std::vector<std::string>& wrong) {
  SQLite::Statement rows(db, "SELECT e.name, min(e.job) FROM entry e JOIN change c ON c.id = e.change WHERE e.kind = 'photo' AND c.fields IS NOT NULL GROUP BY e.name ORDER BY 2, 1");
  while (rows.executeStep()) {
    const std::string hash = rows.getColumn(0).getString();
    const std::string what = is_sha256(hash) ? folder.wrong_with(hash) : "has no SHA-256 for a name";
    if (!what.empty()) wrong.push_back("job " + rows.getColumn(1).getString() + ": photo " + hash + " " + what);
  }
}

}  // namespace

std::vector<std::string> verify_book(const std::filesystem::path& path) {
  std::vector<std::string> wrong;
  std::error_code code;
  if (!std::filesystem::is_regular_file(path, code)) throw FileError{path.string() + ": there is no such book", "check the name and the folder"};
  try {
    // Not read-only where it can be helped: a journal that a killed program left must be rolled back first.
    const bool writable = ::access(path.c_str(), W_OK) == 0 && ::access(path.parent_path().empty() ? "." : path.parent_path().c_str(), W_OK) == 0;
    const auto db = connect(path, writable ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY);
    if (db->execAndGet("PRAGMA application_id").getInt() != book_application_id) return {"it is no job book"};
    check_pages(*db, wrong);
    check_changes(*db, wrong);
    check_assessments(*db, wrong);
    check_copies(*db, wrong);
    check_notes(*db, wrong);
    // FTS5's own check of its index; a command of its, so only where the book may be written.
    if (writable && db->execAndGet("PRAGMA user_version").getInt() >= 2) db->exec("INSERT INTO note(note) VALUES('integrity-check')");
    check_photos(*db, PhotoFolder(path.string() + ".photos"), wrong);
  } catch (const SQLite::Exception& e) {
    if (e.getErrorCode() == SQLITE_BUSY || e.getErrorCode() == SQLITE_LOCKED) translate(e, path);
    wrong.push_back(std::string("the file is damaged: ") + e.what());
  }
  return wrong;
}

}  // namespace exworks
