#include <iostream>
#include <nlohmann/json.hpp>

#include "book/keep.hpp"
#include "command.hpp"
#include "verbs/book/book.hpp"
#include "workshop/book_common.hpp"

namespace exworks::cli {

int run(const BookRestoreArguments& options) {
  const std::string path = book_path(options);
  const auto aside = restore_book(options.file, path, system_environment().now());
  if (options.json) std::cout << nlohmann::ordered_json{{"book", path}, {"backup", options.file}, {"set_aside", aside.string()}}.dump(2) << '\n';
  else std::cout << path << ": restored from " << options.file << (aside.empty() ? "" : "; the book that was there is " + aside.string()) << '\n';
  return done;
}

}  // namespace exworks::cli
