#pragma once
#include <string>

#include "verbs/book_options.hpp"

/// The verbs of the group `book`, each with what its command line said.
namespace exworks::cli {

struct BookVerifyArguments : BookOptions {};
int run(const BookVerifyArguments& arguments);

struct BookBackupArguments : BookOptions {
  std::string file;
  bool overwrite = false;
};
int run(const BookBackupArguments& arguments);

struct BookRestoreArguments : BookOptions {
  std::string file;
};
int run(const BookRestoreArguments& arguments);

struct BookMergeArguments : BookOptions {
  std::string file;
};
int run(const BookMergeArguments& arguments);

}  // namespace exworks::cli
