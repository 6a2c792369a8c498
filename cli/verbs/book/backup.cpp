#include <iostream>
#include <nlohmann/json.hpp>

#include "book/keep.hpp"
#include "command.hpp"
#include "verbs/book/verbs.hpp"
#include "verbs/open_book.hpp"

namespace exworks::cli {

int run(const BookBackupArguments& options) {
  const std::string path = book_path(options);
  backup_book(path, options.file, options.overwrite);
  if (options.json) print_json(nlohmann::ordered_json{{"book", path}, {"backup", options.file}});
  else std::cout << options.file << ": a whole copy of " << path << '\n';
  return done;
}

}  // namespace exworks::cli
