#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "book/book.hpp"

/// What moved between two assessments that the book kept, and which facts or observations did it.
namespace exworks::cli {

nlohmann::ordered_json comparison(const StoredAssessment& a, const StoredAssessment& b);
std::string text_of_comparison(const nlohmann::ordered_json& comparison);

/// The leading build of a kept assessment and its dates; "" when it has none.
std::string build_of(const StoredAssessment& assessment);

}  // namespace exworks::cli
