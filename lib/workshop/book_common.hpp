#pragma once
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "book/book.hpp"
#include "command.hpp"
#include "verbs/book_options.hpp"

/// What the verbs of the job book share.
namespace exworks::cli {

/// --book, else $EXWORKS_BOOK, else exworks/book.db in the user's data folder (XDG).
std::string book_path(const BookOptions& options);
Book open_book(const BookOptions& options);
/// One that must be there: whoever only asks doesn't begin a new book. Throws FileError.
Book open_existing_book(const BookOptions& options);
/// --by, else the name of the user's account.
std::string who(const BookOptions& options);

/// The job with this number, or the only one with this reference. Throws FileError.
std::int64_t find_job(Book& book, const std::string& number_or_reference);

/// Refuses text that XML or a terminal can't hold; throws BadInput after saying so.
void check_text(const std::string& what, const std::string& text);

nlohmann::ordered_json to_json(const Job& job, bool redact);
nlohmann::ordered_json to_json(const Entry& entry, bool redact);
/// "low, seen, sure; a note" for people.
std::string words_of(const Entry& entry, bool redact);

}  // namespace exworks::cli
