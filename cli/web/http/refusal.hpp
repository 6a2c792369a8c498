#pragma once
#include <string>

namespace exworks::cli::web {

/// A request that is answered with no: `words` say what is wrong and what to do.
struct Refusal {
  int status = 400;
  std::string words;
  int retry_seconds = 0;
};

}  // namespace exworks::cli::web
