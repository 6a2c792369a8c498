#include "book/sql.hpp"

#include <sqlite3.h>

#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "base/sha256.hpp"

namespace exworks {

void translate(const SQLite::Exception& e, const std::filesystem::path& book) {
  const std::string name = book.string();
  switch (e.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      throw FileError{name + ": another program has been writing to the book for a long time", "wait until it has ended and run the command again; nothing was changed"};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      throw FileError{name + ": the book is damaged", "run 'exworks book verify', then 'exworks book restore' with a good backup"};
    case SQLITE_FULL:
      throw FileError{name + ": the disk is full", "make room and run the command again; nothing was changed"};
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
      throw FileError{name + ": the book can't be written", "check the folder, its rights, and that the disk isn't read-only; nothing was changed"};
    case SQLITE_IOERR:
      throw FileError{name + ": reading or writing the book failed", "check the disk and the space on it, then run the command again; nothing was changed"};
    default:
      throw std::runtime_error("the job book: " + std::string(e.what()));
  }
}

std::string encode(const std::optional<Fields>& fields) { return fields ? nlohmann::json(*fields).dump() : std::string(); }

std::optional<Fields> decode(const SQLite::Column& column) {
  if (column.isNull()) return std::nullopt;
  const auto json = nlohmann::json::parse(column.getString(), nullptr, false);
  Fields out;
  if (!json.is_object()) return out;
  for (const auto& [key, value] : json.items()) {
    if (value.is_string()) out[key] = value.get<std::string>();
  }
  return out;
}

namespace {

/// Texts one after another, each with its length, so that no two rows can give the same bytes.
std::string joined(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& t : texts) out += std::to_string(t.size()) + ":" + t;
  return out;
}

}  // namespace

std::string change_digest(const std::string& uid, const std::string& job_uid, const Entry& e) {
  return sha256(joined({uid, job_uid, e.at, e.by, e.kind, e.name, e.fields ? encode(e.fields) : "taken back"}));
}

std::string assessment_digest(const StoredAssessment& a) {
  return sha256(joined({a.uid, a.at, a.by, a.family, a.pack_version, a.pack_digest, a.engine, a.settings, a.inspection, a.result}));
}

std::string plain_number(const std::string& text) {
  std::string out;
  for (char c : text) {
    if ((c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z')) out += c;
    else if (c >= 'a' && c <= 'z') out += static_cast<char>(c - 'a' + 'A');
  }
  return out;
}

Entry entry_of(SQLite::Statement& row) {
  Entry e;
  e.change = row.getColumn(0).getInt64();
  e.kind = row.getColumn(1).getString();
  e.name = row.getColumn(2).getString();
  e.fields = decode(row.getColumn(3));
  e.at = row.getColumn(4).getString();
  e.by = row.getColumn(5).getString();
  e.forgotten = row.getColumn(6).getInt() != 0;
  e.uid = row.getColumn(7).getString();
  return e;
}

StoredAssessment assessment_of(SQLite::Statement& row) {
  const auto text = [&](int i) { return row.getColumn(i).getString(); };
  return {row.getColumn(0).getInt64(), row.getColumn(2).getInt64(), text(1), text(3), text(4), text(5), text(6), text(7), text(8), text(9), text(10), text(11)};
}

std::int64_t append_change(SQLite::Database& db, std::int64_t job, const std::string& job_uid, const std::string& uid, const Entry& e) {
  SQLite::Statement add(db, "INSERT INTO change(uid, job, at, by, kind, name, fields, forgotten, digest) VALUES(?,?,?,?,?,?,?,?,?)");
  add.bind(1, uid);
  add.bind(2, job);
  add.bind(3, e.at);
  add.bind(4, e.by);
  add.bind(5, e.kind);
  add.bind(6, e.name);
  if (e.fields) add.bind(7, encode(e.fields));
  add.bind(8, e.forgotten ? 1 : 0);
  add.bind(9, change_digest(uid, job_uid, e));
  add.exec();
  return db.getLastInsertRowid();
}

std::int64_t append_assessment(SQLite::Database& db, const StoredAssessment& a) {
  SQLite::Statement add(db, "INSERT INTO assessment(uid, job, at, by, family, pack_version, pack_digest, engine, settings, inspection, result, digest) VALUES(?,?,?,?,?,?,?,?,?,?,?,?)");
  SQLite::bind(add, a.uid, a.job, a.at, a.by, a.family, a.pack_version, a.pack_digest, a.engine, a.settings, a.inspection, a.result, assessment_digest(a));
  add.exec();
  return db.getLastInsertRowid();
}

namespace {

void set_column(SQLite::Database& db, std::int64_t job, const Entry& e) {
  static const std::vector<std::string> columns{"family", "name", "reference", "owner", "date", "purpose", "state"};
  if (std::find(columns.begin(), columns.end(), e.name) == columns.end()) return;
  SQLite::Statement set(db, "UPDATE job SET " + e.name + " = ? WHERE id = ?");
  set.bind(1, e.fields && e.fields->count("value") ? e.fields->at("value") : std::string());
  set.bind(2, job);
  set.exec();
}

void set_number(SQLite::Database& db, std::int64_t job, const Entry& e) {
  SQLite::Statement drop(db, "DELETE FROM number_now WHERE job = ? AND name = ?");
  SQLite::bind(drop, job, e.name);
  drop.exec();
  if (!e.fields || !e.fields->count("text")) return;
  SQLite::Statement add(db, "INSERT INTO number_now VALUES(?,?,?)");
  SQLite::bind(add, job, e.name, plain_number(e.fields->at("text")));
  add.exec();
}

void set_note(SQLite::Database& db, std::int64_t job, const Entry& e, std::optional<std::int64_t> before) {
  if (before) {
    SQLite::Statement drop(db, "DELETE FROM note WHERE rowid = ?");
    drop.bind(1, *before);
    drop.exec();
  }
  if (!e.fields) return;
  const auto at = e.fields->find(e.kind == "about" && e.name == "note" ? "value" : "note");
  if (at == e.fields->end() || at->second.empty()) return;
  SQLite::Statement add(db, "INSERT INTO note(rowid, text, job) VALUES(?,?,?)");
  SQLite::bind(add, e.change, at->second, job);
  add.exec();
}

}  // namespace

void make_current(SQLite::Database& db, std::int64_t job, const Entry& e) {
  SQLite::Statement find(db, "SELECT change FROM entry WHERE job = ? AND kind = ? AND name = ?");
  SQLite::bind(find, job, e.kind, e.name);
  std::optional<std::int64_t> before;
  if (find.executeStep()) before = find.getColumn(0).getInt64();
  find.reset();
  SQLite::Statement set(db, "INSERT INTO entry VALUES(?,?,?,?) ON CONFLICT(job, kind, name) DO UPDATE SET change = excluded.change");
  SQLite::bind(set, job, e.kind, e.name, e.change);
  set.exec();
  if (e.kind == "about") set_column(db, job, e);
  if (e.kind == "number") set_number(db, job, e);
  set_note(db, job, e, before);
  SQLite::Statement touch(db, "UPDATE job SET updated = max(updated, ?) WHERE id = ?");
  SQLite::bind(touch, e.at, job);
  touch.exec();
}

std::int64_t vehicle_of(SQLite::Database& db, std::int64_t job) {
  SQLite::Statement find(db, "SELECT vehicle FROM job WHERE id = ?");
  find.bind(1, job);
  if (!find.executeStep()) throw FileError{"the book has no job " + std::to_string(job), "'exworks job list' shows those that it has"};
  return find.getColumn(0).getInt64();
}

std::set<std::string> photos_in_history(SQLite::Database& db, const std::string& which) {
  std::set<std::string> out;
  SQLite::Statement rows(db, "SELECT DISTINCT name FROM change WHERE kind = 'photo' AND fields IS NOT NULL AND " + which);
  while (rows.executeStep()) out.insert(rows.getColumn(0).getString());
  return out;
}

std::unique_ptr<SQLite::Database> connect(const std::filesystem::path& path, int flags) {
  // Thirty seconds for another writer to finish: each of ours takes milliseconds.
  auto db = std::make_unique<SQLite::Database>(path.string(), flags, 30'000);
  // A rollback journal keeps the book one file, at rest and on a shared disk; EXTRA also syncs the folder, so that what was
  // acknowledged is there after a power cut. secure_delete: what is forgotten is overwritten.
  db->exec("PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA; PRAGMA secure_delete = ON; PRAGMA cell_size_check = ON; PRAGMA trusted_schema = OFF");
  return db;
}

}  // namespace exworks
