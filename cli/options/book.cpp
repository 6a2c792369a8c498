#include "options/options.hpp"
#include "verbs/book/verbs.hpp"

namespace exworks::cli {

namespace {

template <class Arguments>
void finish(CLI::App& verb, const std::shared_ptr<Arguments>& options, const std::string& example, Action& action) {
  add_book_option(verb, *options);
  add_json_option(verb, options->json);
  add_log_options(verb, options->log);
  add_footer(verb, "Example: exworks book " + example + "\n");
  calls(verb, options, action);
}

void add_verify(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("verify", "Read every page, entry and photo, and say what isn't as it was written");
  finish(*verb, std::make_shared<BookVerifyArguments>(), "verify", action);
}

void add_backup(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("backup", "Copy the book and its photos; a damaged book is never copied");
  auto options = std::make_shared<BookBackupArguments>();
  verb->add_option("FILE", options->file, "the copy's name")->required();
  verb->add_flag("--overwrite", options->overwrite, "replace an older backup of this name, once the new one is whole");
  finish(*verb, options, "backup /media/stick/book.db", action);
}

void add_restore(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("restore", "Put a backup in the book's place; the book that is there is set aside, not lost");
  auto options = std::make_shared<BookRestoreArguments>();
  verb->add_option("FILE", options->file, "the backup")->required();
  finish(*verb, options, "restore /media/stick/book.db", action);
}

void add_merge(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("merge", "Take in everything of another book; where both changed the same entry, list it (exit 1)");
  auto options = std::make_shared<BookMergeArguments>();
  verb->add_option("FILE", options->file, "the other book")->required();
  finish(*verb, options, "merge laptop.db", action);
}

}  // namespace

void add_book(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("book", "Care for the job book: is it whole, copies, the way back, two books into one");
  group->require_subcommand(1);
  add_footer(*group, "Example: exworks book verify\n");
  for (const auto add : {add_verify, add_backup, add_restore, add_merge}) add(*group, action);
}

}  // namespace exworks::cli
