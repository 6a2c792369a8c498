#pragma once
#include <string>

#include "book/book.hpp"
#include "verbs/book_options.hpp"

/// The job book that the options mean.
namespace exworks::cli {

/// --book, else $EXWORKS_BOOK, else exworks/book.db in the user's data folder (XDG).
std::string book_path(const BookOptions& options);
Book open_book(const BookOptions& options);
/// One that must be there: whoever only asks doesn't begin a new book. Throws FileError.
Book open_existing_book(const BookOptions& options);
/// --by, else the name of the user's account.
std::string who(const BookOptions& options);

}  // namespace exworks::cli
