#include "base/file.hpp"
#include "book/sql.hpp"

/// The part of Book that phones write to: each answer has a name of its own and is kept once.
namespace exworks {

namespace {

/// Was this answer kept before? A name that belongs to something else is refused.
bool kept_before(SQLite::Database& db, std::int64_t job, const Entry& e) {
  SQLite::Statement find(db, "SELECT job, kind, name FROM change WHERE uid = ?");
  find.bind(1, e.uid);
  if (!find.executeStep()) return false;
  if (find.getColumn(0).getInt64() != job || find.getColumn(1).getString() != e.kind || find.getColumn(2).getString() != e.name) throw EditMisused{e.uid};
  return true;
}

std::optional<Entry> holding(SQLite::Database& db, std::int64_t job, const Entry& e) {
  SQLite::Statement find(db, std::string("SELECT ") + entry_columns + " FROM entry e JOIN change c ON c.id = e.change WHERE e.job = ? AND e.kind = ? AND e.name = ?");
  SQLite::bind(find, job, e.kind, e.name);
  if (!find.executeStep()) return std::nullopt;
  return entry_of(find);
}

/// An answer settles what a merge left open of its entry.
void settle(SQLite::Database& db, std::int64_t job, const Entry& e) {
  SQLite::Statement drop(db, "DELETE FROM conflict WHERE job = ? AND kind = ? AND name = ?");
  SQLite::bind(drop, job, e.kind, e.name);
  drop.exec();
}

}  // namespace

std::vector<EditResult> Book::record_edits(std::int64_t job, const std::vector<Edit>& edits, const std::string& by) {
  return writing(*db_, path_, [&] {
    const std::string job_uid = this->job(job).uid, at = environment_.now();
    std::vector<EditResult> out;
    for (const Edit& tap : edits) {
      Entry e = tap.entry;
      EditResult told;
      told.again = kept_before(*db_, job, e);
      if (!told.again) {
        const auto before = holding(*db_, job, e);
        // An answer like the one that holds is kept too: that two people saw the same is worth knowing, and its name must be known.
        if (before && before->change > tap.seen && before->fields != e.fields) told.replaced = before;
        settle(*db_, job, e);
        e.at = at;
        e.by = by;
        e.change = append_change(*db_, job, job_uid, e.uid, e);
        make_current(*db_, job, e);
      }
      out.push_back(std::move(told));
    }
    return out;
  });
}

std::optional<std::int64_t> Book::job_begun_by(const std::string& uid) {
  return guarded(path_, [&]() -> std::optional<std::int64_t> {
    SQLite::Statement find(*db_, "SELECT job FROM change WHERE uid = ?");
    find.bind(1, uid);
    if (!find.executeStep()) return std::nullopt;
    return find.getColumn(0).getInt64();
  });
}

std::vector<Entry> Book::entries_since(std::int64_t job, std::int64_t change) {
  return guarded(path_, [&] {
    SQLite::Statement find(*db_, std::string("SELECT ") + entry_columns + " FROM entry e JOIN change c ON c.id = e.change WHERE e.job = ? AND e.change > ? ORDER BY c.id");
    SQLite::bind(find, job, change);
    std::vector<Entry> out;
    while (find.executeStep()) {
      out.push_back(entry_of(find));
      out.back().current = true;
    }
    return out;
  });
}

std::int64_t Book::last_change(std::int64_t job) {
  return guarded(path_, [&] {
    SQLite::Statement find(*db_, "SELECT coalesce(max(id), 0) FROM change WHERE job = ?");
    find.bind(1, job);
    find.executeStep();
    return find.getColumn(0).getInt64();
  });
}

bool Book::has_job(std::int64_t id) {
  return guarded(path_, [&] {
    SQLite::Statement find(*db_, "SELECT 1 FROM job WHERE id = ?");
    find.bind(1, id);
    return find.executeStep();
  });
}

bool Book::has_photo(const std::string& hash) {
  return guarded(path_, [&] {
    SQLite::Statement find(*db_, "SELECT 1 FROM entry e JOIN change c ON c.id = e.change WHERE e.kind = 'photo' AND e.name = ? AND c.fields IS NOT NULL LIMIT 1");
    find.bind(1, hash);
    return find.executeStep();
  });
}

}  // namespace exworks
