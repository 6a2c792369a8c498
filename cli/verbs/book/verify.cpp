#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "book/keep.hpp"
#include "command.hpp"
#include "report/render/page.hpp"
#include "verbs/book/verbs.hpp"
#include "verbs/open_book.hpp"

namespace exworks::cli {

int run(const BookVerifyArguments& options) {
  const std::string path = book_path(options);
  const std::vector<std::string> wrong = verify_book(path);
  if (options.json) {
    print_json(nlohmann::ordered_json{{"book", path}, {"whole", wrong.empty()}, {"wrong", wrong}});
  } else {
    for (const std::string& line : wrong) std::cout << harmless(line) << '\n';
    std::cout << path << (wrong.empty() ? ": whole\n" : ": not whole; 'exworks book restore' puts a good backup in its place\n");
  }
  return wrong.empty() ? done : answer_is_no;
}

}  // namespace exworks::cli
