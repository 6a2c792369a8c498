#pragma once
#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <SQLiteCpp/VariadicBind.h>

#include <filesystem>
#include <set>
#include <utility>

#include "book/book.hpp"

/// Inside of store/ alone: SQLite's exceptions as FileErrors, and the one way to write.
namespace exworks {

[[noreturn]] void translate(const SQLite::Exception& e, const std::filesystem::path& book);

template <class Work>
auto guarded(const std::filesystem::path& book, Work&& work) -> decltype(work()) {
  try {
    return work();
  } catch (const SQLite::Exception& e) {
    translate(e, book);
  }
}

/// Runs `work` in a transaction that takes the write lock at once: a reader that turns writer half-way could not wait for
/// another writer. Commits when `work` returns, takes everything back when it throws.
template <class Work>
auto writing(SQLite::Database& db, const std::filesystem::path& book, Work&& work) -> decltype(work()) {
  return guarded(book, [&] {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    if constexpr (std::is_void_v<decltype(work())>) {
      work();
      transaction.commit();
    } else {
      auto result = work();
      transaction.commit();
      return result;
    }
  });
}

/// The vehicle of a job; FileError when the book has no such job.
std::int64_t vehicle_of(SQLite::Database& db, std::int64_t job);

std::string encode(const std::optional<Fields>& fields);
std::optional<Fields> decode(const SQLite::Column& column);
std::string change_digest(const std::string& uid, const std::string& job_uid, const Entry& entry);
std::string assessment_digest(const StoredAssessment& a);
/// Letters and digits alone, in capitals: how numbers are compared.
std::string plain_number(const std::string& text);

Entry entry_of(SQLite::Statement& row);
inline constexpr const char* entry_columns = "c.id, c.kind, c.name, c.fields, c.at, c.by, c.forgotten, c.uid";
StoredAssessment assessment_of(SQLite::Statement& row);
inline constexpr const char* assessment_columns = "id, uid, job, at, by, family, pack_version, pack_digest, engine, settings, inspection, result";

/// The photos that the history names, forgotten ones apart. `which`: a condition on its column `job`.
std::set<std::string> photos_in_history(SQLite::Database& db, const std::string& which = "1");

/// Makes `change` what holds now of its key: entry, the columns of job, notes and numbers. Inside a transaction.
void make_current(SQLite::Database& db, std::int64_t job, const Entry& entry);
/// Writes the row of the history. Returns its id.
std::int64_t append_change(SQLite::Database& db, std::int64_t job, const std::string& job_uid, const std::string& uid, const Entry& entry);
std::int64_t append_assessment(SQLite::Database& db, const StoredAssessment& a);

/// Opens a file as it is, with the settings that every connection needs.
std::unique_ptr<SQLite::Database> connect(const std::filesystem::path& path, int flags);

}  // namespace exworks
