#include <set>

#include "base/file.hpp"
#include "base/sha256.hpp"
#include "book/keep.hpp"
#include "book/photos.hpp"
#include "book/sql.hpp"

namespace exworks {

namespace fs = std::filesystem;

namespace {

fs::path photos_of(const fs::path& book) { return book.string() + ".photos"; }

void remove_quietly(const fs::path& file) {
  std::error_code ignored;
  fs::remove(file, ignored);
  fs::remove(file.string() + "-journal", ignored);
}

/// Those that the history names; others are left from a run that was killed, or were forgotten.
std::set<std::string> photos_named(const fs::path& book) { return photos_in_history(*connect(book, SQLite::OPEN_READWRITE)); }

void copy_photos(const fs::path& from, const fs::path& to) {
  const PhotoFolder source(photos_of(from)), target(photos_of(to));
  const std::set<std::string> named = photos_named(from);
  for (const std::string& name : source.names()) {
    if (named.contains(name) && !target.wrong_with(name).empty()) target.keep(read_file(source.file(name)));
  }
}

/// An older copy's photos that this one names no more: what was forgotten here is forgotten there.
void drop_photos_beyond(const fs::path& book) {
  const PhotoFolder folder(photos_of(book));
  const std::set<std::string> named = photos_named(book);
  for (const std::string& name : folder.names()) {
    if (is_sha256(name) && !named.contains(name)) folder.remove(name);
  }
}

[[noreturn]] void refuse(const fs::path& book, const std::vector<std::string>& wrong, const std::string& remedy) {
  throw FileError{book.string() + ": the book is not whole (" + wrong.front() + (wrong.size() > 1 ? ", and " + std::to_string(wrong.size() - 1) + " more" : "") + ")", remedy};
}

/// Copies page by page under another name, and verifies what was written before it takes the name.
void copy_whole(const fs::path& from, const fs::path& to) {
  const fs::path part = to.string() + ".part";
  remove_quietly(part);
  try {
    write_file(part, "");
    fs::permissions(part, fs::perms::owner_read | fs::perms::owner_write);
    guarded(to, [&] {
      const auto source = connect(from, SQLite::OPEN_READWRITE);
      const auto target = connect(part, SQLite::OPEN_READWRITE);
      SQLite::Backup backup(*target, *source);
      backup.executeStep(-1);
    });
    copy_photos(from, to);
    // A killed run may have left one, which would lead elsewhere.
    if (fs::is_symlink(photos_of(part))) fs::remove(photos_of(part));
    fs::create_directory_symlink(fs::absolute(photos_of(to)), photos_of(part));
    const auto wrong = verify_book(part);
    fs::remove(photos_of(part));
    if (!wrong.empty()) refuse(part, wrong, "the copy was not kept; check the disk");
    sync_to_disk(part);
    fs::rename(part, to);
    sync_to_disk(to);
    drop_photos_beyond(to);
  } catch (...) {
    std::error_code ignored;
    fs::remove(photos_of(part), ignored);
    remove_quietly(part);
    throw;
  }
}

}  // namespace

void backup_book(const fs::path& from, const fs::path& to, bool overwrite) {
  std::error_code code;
  if (fs::exists(to, code) && !overwrite) throw FileError{to.string() + ": there is already such a file", "give --overwrite to replace it, or another name"};
  if (fs::equivalent(from, to, code)) throw FileError{to.string() + ": this is the book itself", "name another file for the copy"};
  const auto wrong = verify_book(from);
  if (!wrong.empty()) refuse(from, wrong, "no copy was made, and an older one was left as it is; 'exworks book verify' lists all, 'exworks book restore' takes a good copy back");
  try {
    copy_whole(from, to);
  } catch (const fs::filesystem_error& e) {
    throw FileError{to.string() + ": can't be written (" + e.code().message() + ")", "check the folder, its rights and the space on the disk"};
  }
}

fs::path restore_book(const fs::path& backup, const fs::path& book, const std::string& now) {
  std::error_code code;
  if (fs::equivalent(backup, book, code)) throw FileError{backup.string() + ": this is the book itself", "name a backup"};
  const auto wrong = verify_book(backup);
  if (!wrong.empty()) refuse(backup, wrong, "name another backup; the book was left as it is");
  fs::path aside;
  try {
    // The copy is made and verified first; only then does the old book give way.
    const fs::path ready = book.string() + ".restored";
    copy_whole(backup, ready);
    copy_photos(backup, book);
    if (fs::exists(book)) {
      aside = book.string() + ".before-" + now;
      fs::rename(book, aside);
      if (fs::exists(book.string() + "-journal")) fs::rename(book.string() + "-journal", aside.string() + "-journal");
    }
    fs::rename(ready, book);
    fs::remove_all(photos_of(ready));
    sync_to_disk(book);
  } catch (const fs::filesystem_error& e) {
    throw FileError{book.string() + ": can't be written (" + e.code().message() + ")", "check the folder, its rights and the space on the disk"};
  }
  return aside;
}

}  // namespace exworks
