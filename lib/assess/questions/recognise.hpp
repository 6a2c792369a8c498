#pragma once
#include <map>
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"

namespace exworks {

/// How well one family fits a few answers and a number, before anything is inspected.
struct FamilyGuess {
  std::size_t pack = 0;                    ///< index into the packs; packs.size() stands for "none of these"
  double p = 0;
  std::vector<std::string> fits, against;  ///< the answers in words
  std::string number;                      ///< the name of the form that reads the number, "" when none does
};

/// All questions of these packs, each once, with every answer that some pack knows.
std::vector<QuestionInfo> all_questions(const std::vector<const Tables*>& packs);

/// Most likely first. `answers`: by question; `number`: "" when none was typed. The rule stands in rules/FORMAT.md.
std::vector<FamilyGuess> guess_family(const std::vector<const Tables*>& packs, const std::map<std::string, std::string>& answers, const std::string& number);

}  // namespace exworks
