#pragma once
#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "book/book.hpp"

/// Jobs of the book: which one is meant, and what is told of it and of its entries.
namespace exworks {

/// The job with this number, or the only one with this reference. Throws FileError.
std::int64_t find_job(Book& book, const std::string& number_or_reference);

/// Throws Mistakes for text that XML or a terminal can't hold.
void require_text(const std::string& what, const std::string& text);

nlohmann::ordered_json to_json(const Job& job, bool redact);
nlohmann::ordered_json to_json(const Entry& entry, bool redact);
/// "low, seen, sure; a note" for people.
std::string words_of(const Entry& entry, bool redact);

}  // namespace exworks
