#include "verbs/open_book.hpp"

#include <pwd.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "base/file.hpp"
#include "base/text.hpp"
#include "user_folder.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

std::string book_path(const BookOptions& options) {
  if (!options.book.empty()) return options.book;
  if (const char* book = std::getenv("EXWORKS_BOOK"); book != nullptr && *book != '\0') return book;
  return (user_folder("XDG_DATA_HOME", ".local/share").value_or("/.local/share") / "exworks/book.db").string();
}

Book open_book(const BookOptions& options) { return Book(book_path(options), system_environment()); }

Book open_existing_book(const BookOptions& options) {
  if (const std::string path = book_path(options); !std::filesystem::exists(path)) throw FileError{"there is no job book " + path, "name it with --book, or begin one with 'exworks job new'"};
  return open_book(options);
}

std::string who(const BookOptions& options) {
  if (!options.by.empty()) {
    require_text("--by", options.by);
    return options.by;
  }
  const passwd* user = getpwuid(getuid());
  const std::string name = user != nullptr ? user->pw_name : "";
  return !name.empty() && is_clean_utf8(name) ? name : std::to_string(getuid());
}

}  // namespace exworks::cli
