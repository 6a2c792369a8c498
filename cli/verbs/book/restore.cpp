#include <iostream>
#include <nlohmann/json.hpp>

#include "book/keep.hpp"
#include "command.hpp"
#include "verbs/book/verbs.hpp"
#include "verbs/open_book.hpp"

namespace exworks::cli {

int run(const BookRestoreArguments& options) {
  const std::string path = book_path(options);
  const auto aside = restore_book(options.file, path, system_environment().now());
  if (options.json) print_json(nlohmann::ordered_json{{"book", path}, {"backup", options.file}, {"set_aside", aside.string()}});
  else std::cout << path << ": restored from " << options.file << (aside.empty() ? "" : "; the book that was there is " + aside.string()) << '\n';
  return done;
}

}  // namespace exworks::cli
