#pragma once
#include <CLI/CLI.hpp>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "command.hpp"
#include "book/book.hpp"

/// What the verbs of the job book share.
namespace exworks::cli {

/// --book, --by, --json and --redact, as far as a verb has them.
struct BookOptions {
  std::string book, by, rules;
  bool json = false, redact = false;
};
void add_book_option(CLI::App& verb, BookOptions& options);
void add_by_option(CLI::App& verb, BookOptions& options);
void add_json_option(CLI::App& verb, BookOptions& options);
void add_redact_option(CLI::App& verb, BookOptions& options);

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

// The verbs of `job`, a file each.
void add_job_new(CLI::App& group, Action& action);
void add_job_set(CLI::App& group, Action& action);
void add_job_list(CLI::App& group, Action& action);
void add_job_show(CLI::App& group, Action& action);
void add_job_files(CLI::App& group, Action& action);
void add_job_photo(CLI::App& group, Action& action);
void add_job_assess(CLI::App& group, Action& action);

}  // namespace exworks::cli
