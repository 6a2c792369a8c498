#pragma once
#include <string>

#include "log.hpp"
#include "verbs/book_options.hpp"

/// The verbs of the group `book`, each with what its command line said.
namespace exworks::cli {

struct BookVerifyArguments : BookOptions {
  LogOptions log;
};
int run(const BookVerifyArguments& arguments);

struct BookBackupArguments : BookOptions {
  std::string file;
  bool overwrite = false;
  LogOptions log;
};
int run(const BookBackupArguments& arguments);

struct BookRestoreArguments : BookOptions {
  std::string file;
  LogOptions log;
};
int run(const BookRestoreArguments& arguments);

struct BookMergeArguments : BookOptions {
  std::string file;
  LogOptions log;
};
int run(const BookMergeArguments& arguments);

}  // namespace exworks::cli
