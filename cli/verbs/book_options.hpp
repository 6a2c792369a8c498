#pragma once
#include <string>

namespace exworks::cli {

/// --book, --by, --rules, --json and --redact, as far as a verb has them.
struct BookOptions {
  std::string book, by, rules;
  bool json = false, redact = false;
};

}  // namespace exworks::cli
