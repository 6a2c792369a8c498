#pragma once

namespace SQLite {
class Database;
}

/// The tables of the job book, as ordered steps; `user_version` says how many a book has had.
namespace exworks {

inline constexpr int book_version = 2;
inline constexpr int book_application_id = 0x45585742;  ///< "EXWB": tells a book from any other SQLite file

/// Brings an empty or older book to `version`, each step in the caller's transaction.
void migrate(SQLite::Database& db, int version);

}  // namespace exworks
