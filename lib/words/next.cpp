#include "words/next.hpp"

namespace exworks {

std::string next_note(const NextChecks& next) {
  if (next.nothing_left) return "Nothing more is worth looking at: no unseen feature of this pack can be expected to change the answer.";
  return next.no_time ? "No look that is worth while fits into the time." : "";
}

}  // namespace exworks
