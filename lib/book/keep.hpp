#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "book/book.hpp"

/// Keeping books: is it whole, a safe copy, the way back, two books into one, and what a person asks to be removed.
namespace exworks {

/// Everything that is wrong with a book and its photos, in words; empty: it is whole. Reads every row and every photo.
std::vector<std::string> verify_book(const std::filesystem::path& path);

/// Copies a book and its photos. Refuses a book that isn't whole, so that a good copy is never replaced by a damaged one;
/// the copy is verified before it takes the name. Throws FileError.
void backup_book(const std::filesystem::path& from, const std::filesystem::path& to, bool overwrite);

/// Puts a backup in the book's place; a book that is there is set aside. Returns the name it was given, "" when none was.
std::filesystem::path restore_book(const std::filesystem::path& backup, const std::filesystem::path& book, const std::string& now);

struct Merged {
  std::size_t jobs = 0, changes = 0, assessments = 0, photos = 0;
  std::vector<Conflict> conflicts;  ///< of this merge: both books changed the same entry
};

/// Takes everything of `other` into `book`. Where both changed the same entry, ours stays in force, theirs joins the
/// history, and the conflict is kept until somebody sets the entry again. Merging the same book twice changes nothing.
Merged merge_book(Book& book, const std::filesystem::path& other);

/// Removes what says who the owner is: owner, name, reference, every free text, who claimed, and photos that no other job
/// uses. What was seen, the numbers, the verdicts and their dates stay. `clean` rewrites an assessment's inspection (XML) and
/// result (JSON).
struct Forgotten {
  std::size_t changes = 0, assessments = 0, photos = 0;
};
Forgotten forget_job(Book& book, std::int64_t job, const std::function<void(StoredAssessment&)>& clean);

}  // namespace exworks
