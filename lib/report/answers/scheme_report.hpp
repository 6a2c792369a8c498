#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "engine/tables/tables.hpp"
#include "assess/questions/scheme_verdict.hpp"

namespace exworks {

/// "7 to 12 of 14 points"; "" where the scheme has none.
std::string scheme_points(const Scheme& scheme, const SchemeVerdict& verdict);

/// The outcome with its clause: "keeps its mark (eight points or more)".
std::string outcome_words(const SchemeOutcome& outcome);

/// "7 to 12 of 14 points: keeps its mark, or approval test and a Q mark"
std::string scheme_answer(const Scheme& scheme, const SchemeVerdict& verdict);

std::string text_schemes(const Tables& tables, const std::vector<Scheme>& schemes, const std::vector<SchemeVerdict>& verdicts, bool colour);
nlohmann::ordered_json json_schemes(const Tables& tables, const std::vector<Scheme>& schemes, const std::vector<SchemeVerdict>& verdicts);

}  // namespace exworks
