#include "book/schema.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>

namespace exworks {

namespace {

// `change` is the truth: one row for each thing said, never altered. `entry` points at the row that holds now, and the
// columns of `job` repeat what lists need; both can be made again from the history, and `book verify` compares them.
constexpr const char* version_1 = R"sql(
CREATE TABLE vehicle(id INTEGER PRIMARY KEY, uid TEXT NOT NULL UNIQUE);
CREATE TABLE job(
  id INTEGER PRIMARY KEY AUTOINCREMENT, uid TEXT NOT NULL UNIQUE, vehicle INTEGER NOT NULL REFERENCES vehicle(id),
  family TEXT NOT NULL DEFAULT '', name TEXT NOT NULL DEFAULT '', reference TEXT NOT NULL DEFAULT '', owner TEXT NOT NULL DEFAULT '',
  date TEXT NOT NULL DEFAULT '', purpose TEXT NOT NULL DEFAULT '', state TEXT NOT NULL DEFAULT '', updated TEXT NOT NULL DEFAULT '',
  assessment INTEGER);
CREATE TABLE change(
  id INTEGER PRIMARY KEY AUTOINCREMENT, uid TEXT NOT NULL UNIQUE, job INTEGER NOT NULL REFERENCES job(id), at TEXT NOT NULL, by TEXT NOT NULL,
  kind TEXT NOT NULL, name TEXT NOT NULL, fields TEXT, forgotten INTEGER NOT NULL DEFAULT 0, digest TEXT NOT NULL);
CREATE INDEX change_of_job ON change(job, id);
CREATE TABLE entry(job INTEGER NOT NULL REFERENCES job(id), kind TEXT NOT NULL, name TEXT NOT NULL,
  change INTEGER NOT NULL REFERENCES change(id), PRIMARY KEY(job, kind, name)) WITHOUT ROWID;
CREATE TABLE assessment(
  id INTEGER PRIMARY KEY AUTOINCREMENT, uid TEXT NOT NULL UNIQUE, job INTEGER NOT NULL REFERENCES job(id), at TEXT NOT NULL, by TEXT NOT NULL,
  family TEXT NOT NULL, pack_version TEXT NOT NULL, pack_digest TEXT NOT NULL, engine TEXT NOT NULL, settings TEXT NOT NULL,
  inspection TEXT NOT NULL, result TEXT NOT NULL, digest TEXT NOT NULL);
CREATE INDEX assessment_of_job ON assessment(job, id);
CREATE TRIGGER change_stays BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'the history is only added to'); END;
CREATE TRIGGER change_holds BEFORE UPDATE ON change WHEN NEW.forgotten <> 1 OR NEW.uid <> OLD.uid OR NEW.job <> OLD.job
  OR NEW.at <> OLD.at OR NEW.kind <> OLD.kind
  BEGIN SELECT RAISE(ABORT, 'the history is only added to'); END;
)sql";

// Search: notes by full text, verdicts and numbers by index; conflicts that a merge found. Key columns stand first in tables
// without a rowid: SQLite 3.40's integrity_check takes the others for NULL.
constexpr const char* version_2 = R"sql(
CREATE VIRTUAL TABLE note USING fts5(text, job UNINDEXED, tokenize = 'unicode61 remove_diacritics 2');
INSERT INTO note(rowid, text, job) SELECT * FROM (
  SELECT c.id, CASE WHEN c.kind = 'about' AND c.name = 'note' THEN json_extract(c.fields, '$.value') ELSE json_extract(c.fields, '$.note') END AS text, c.job
  FROM entry e JOIN change c ON c.id = e.change) WHERE coalesce(text, '') <> '';
CREATE TABLE number_now(job INTEGER NOT NULL REFERENCES job(id), name TEXT NOT NULL, plain TEXT NOT NULL, PRIMARY KEY(job, name)) WITHOUT ROWID;
CREATE INDEX number_by_text ON number_now(plain);
INSERT INTO number_now
  SELECT c.job, c.name, upper(replace(replace(replace(replace(json_extract(c.fields, '$.text'), ' ', ''), '-', ''), '/', ''), '.', ''))
  FROM entry e JOIN change c ON c.id = e.change WHERE c.kind = 'number' AND c.fields IS NOT NULL;
CREATE TABLE verdict(job INTEGER NOT NULL REFERENCES job(id), part TEXT NOT NULL, verdict TEXT NOT NULL, PRIMARY KEY(job, part, verdict)) WITHOUT ROWID;
CREATE INDEX verdict_by_part ON verdict(part, verdict, job);
CREATE TABLE conflict(job INTEGER NOT NULL REFERENCES job(id), kind TEXT NOT NULL, name TEXT NOT NULL,
  theirs INTEGER NOT NULL REFERENCES change(id), ours INTEGER NOT NULL REFERENCES change(id), PRIMARY KEY(job, kind, name, theirs)) WITHOUT ROWID;
INSERT INTO verdict
  SELECT DISTINCT j.id, json_extract(f.value, p.path), json_extract(f.value, '$.verdict')
  FROM job j JOIN assessment a ON a.id = j.assessment, json_each(a.result, '$.features') f,
       (SELECT '$.id' AS path UNION ALL SELECT '$.assembly') p
  WHERE json_extract(f.value, p.path) IS NOT NULL;
CREATE INDEX job_by_family ON job(family, id);
CREATE INDEX job_by_reference ON job(reference);
CREATE INDEX job_by_owner ON job(owner);
CREATE INDEX job_by_date ON job(date);
CREATE INDEX job_by_state ON job(state, id);
)sql";

}  // namespace

void migrate(SQLite::Database& db, int version) {
  static const char* const steps[] = {version_1, version_2};
  const int now = db.execAndGet("PRAGMA user_version").getInt();
  for (int step = now; step < version; ++step) db.exec(steps[step]);
  db.exec("PRAGMA application_id = " + std::to_string(book_application_id));
  db.exec("PRAGMA user_version = " + std::to_string(version));
}

}  // namespace exworks
