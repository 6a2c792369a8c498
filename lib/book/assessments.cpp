#include "book/sql.hpp"

#include "base/file.hpp"

/// The part of Book that keeps assessments and the conflicts of merges.
namespace exworks {

namespace {

void set_verdicts(SQLite::Database& db, std::int64_t job, const std::vector<PartVerdict>& verdicts) {
  SQLite::Statement drop(db, "DELETE FROM verdict WHERE job = ?");
  drop.bind(1, job);
  drop.exec();
  SQLite::Statement add(db, "INSERT OR IGNORE INTO verdict VALUES(?,?,?)");
  for (const PartVerdict& v : verdicts) {
    SQLite::bind(add, job, v.part, v.verdict);
    add.exec();
    add.reset();
  }
}

}  // namespace

void Book::add_assessments(const std::vector<std::pair<StoredAssessment, std::vector<PartVerdict>>>& assessments, const std::string& by) {
  writing(*db_, path_, [&] {
    for (auto [a, verdicts] : assessments) {
      vehicle_of(*db_, a.job);
      a.uid = environment_.uid();
      a.at = environment_.now();
      a.by = by;
      a.id = append_assessment(*db_, a);
      SQLite::Statement set(*db_, "UPDATE job SET assessment = ?, updated = max(updated, ?) WHERE id = ?");
      SQLite::bind(set, a.id, a.at, a.job);
      set.exec();
      set_verdicts(*db_, a.job, verdicts);
    }
  });
}

std::vector<StoredAssessment> Book::assessments(std::int64_t job) {
  return guarded(path_, [&] {
    vehicle_of(*db_, job);
    SQLite::Statement find(*db_, "SELECT id, uid, job, at, by, family, pack_version, pack_digest, engine, settings, '', '' FROM assessment WHERE job = ? ORDER BY at, id");
    find.bind(1, job);
    std::vector<StoredAssessment> out;
    while (find.executeStep()) out.push_back(assessment_of(find));
    return out;
  });
}

StoredAssessment Book::assessment(std::int64_t id) {
  return guarded(path_, [&] {
    SQLite::Statement find(*db_, std::string("SELECT ") + assessment_columns + " FROM assessment WHERE id = ?");
    find.bind(1, id);
    if (!find.executeStep()) throw FileError{"the book has no assessment " + std::to_string(id), "'exworks job show' lists those of a job"};
    return assessment_of(find);
  });
}

std::vector<Conflict> Book::conflicts(std::optional<std::int64_t> job) {
  return guarded(path_, [&] {
    std::vector<Conflict> out;
    SQLite::Statement find(*db_, std::string("SELECT job, kind, name, ours, theirs FROM conflict") + (job ? " WHERE job = ?" : "") + " ORDER BY job, kind, name");
    if (job) find.bind(1, *job);
    const auto change = [&](std::int64_t id) {
      SQLite::Statement one(*db_, std::string("SELECT ") + entry_columns + " FROM change c WHERE c.id = ?");
      one.bind(1, id);
      return one.executeStep() ? entry_of(one) : Entry{};
    };
    while (find.executeStep()) {
      out.push_back({find.getColumn(0).getInt64(), find.getColumn(1).getString(), find.getColumn(2).getString(), change(find.getColumn(3).getInt64()), change(find.getColumn(4).getInt64())});
    }
    return out;
  });
}

}  // namespace exworks
