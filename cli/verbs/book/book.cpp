#include <iostream>

#include "base/file.hpp"
#include "workshop/book_common.hpp"
#include "report/render/page.hpp"
#include "book/keep.hpp"

namespace exworks::cli {

namespace {

struct Options : BookOptions {
  std::string file;
  bool overwrite = false;
};

using Json = nlohmann::ordered_json;

int run_verify(const Options& options) {
  const std::string path = book_path(options);
  const std::vector<std::string> wrong = verify_book(path);
  if (options.json) {
    std::cout << Json{{"book", path}, {"whole", wrong.empty()}, {"wrong", wrong}}.dump(2) << '\n';
  } else {
    for (const std::string& line : wrong) std::cout << harmless(line) << '\n';
    std::cout << path << (wrong.empty() ? ": whole\n" : ": not whole; 'exworks book restore' puts a good backup in its place\n");
  }
  return wrong.empty() ? done : answer_is_no;
}

int run_backup(const Options& options) {
  const std::string path = book_path(options);
  backup_book(path, options.file, options.overwrite);
  if (options.json) std::cout << Json{{"book", path}, {"backup", options.file}}.dump(2) << '\n';
  else std::cout << options.file << ": a whole copy of " << path << '\n';
  return done;
}

int run_restore(const Options& options) {
  const std::string path = book_path(options);
  const auto aside = restore_book(options.file, path, system_environment().now());
  if (options.json) std::cout << Json{{"book", path}, {"backup", options.file}, {"set_aside", aside.string()}}.dump(2) << '\n';
  else std::cout << path << ": restored from " << options.file << (aside.empty() ? "" : "; the book that was there is " + aside.string()) << '\n';
  return done;
}

int run_merge(const Options& options) {
  Book book = open_book(options);
  const Merged m = merge_book(book, options.file);
  if (options.json) {
    Json out = {{"jobs", m.jobs}, {"entries", m.changes}, {"assessments", m.assessments}, {"photos", m.photos}, {"conflicts", Json::array()}};
    for (const Conflict& c : m.conflicts) out["conflicts"].push_back({{"job", c.job}, {"kind", c.kind}, {"name", c.name}, {"ours", to_json(c.ours, false)}, {"theirs", to_json(c.theirs, false)}});
    std::cout << out.dump(2) << '\n';
  } else {
    std::cout << m.jobs << " new jobs, " << m.changes << " entries, " << m.assessments << " assessments, " << m.photos << " photos taken in\n";
    for (const Conflict& c : m.conflicts) {
      std::cout << harmless("job " + std::to_string(c.job) + ", " + c.kind + " " + c.name) << ":\n  here:  " << words_of(c.ours, false) << " (" << harmless(c.ours.by) << ", " << c.ours.at
                << ")\n  there: " << words_of(c.theirs, false) << " (" << harmless(c.theirs.by) << ", " << c.theirs.at << ")\n";
    }
    if (!m.conflicts.empty()) std::cout << "What stood here stays until 'exworks job set' settles it; both are in the history.\n";
  }
  return m.conflicts.empty() ? done : answer_is_no;
}

void add_verb(CLI::App& group, const char* name, const char* help, const char* file, const char* example, Action& action, int (*run)(const Options&)) {
  auto* verb = group.add_subcommand(name, help);
  auto options = std::make_shared<Options>();
  if (file != nullptr) verb->add_option("FILE", options->file, file)->required();
  if (run == run_backup) verb->add_flag("--overwrite", options->overwrite, "replace an older backup of this name, once the new one is whole");
  add_book_option(*verb, *options);
  add_json_option(*verb, *options);
  verb->footer(std::string("Example: exworks book ") + example + "\n" + exit_codes);
  verb->callback([options, run, &action] { action = [options, run] { return run(*options); }; });
}

}  // namespace

void add_book(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("book", "Care for the job book: is it whole, copies, the way back, two books into one");
  group->require_subcommand(1);
  group->footer(std::string("Example: exworks book verify\n") + exit_codes);
  add_verb(*group, "verify", "Read every page, entry and photo, and say what isn't as it was written", nullptr, "verify", action, run_verify);
  add_verb(*group, "backup", "Copy the book and its photos; a damaged book is never copied", "the copy's name", "backup /media/stick/book.db", action, run_backup);
  add_verb(*group, "restore", "Put a backup in the book's place; the book that is there is set aside, not lost", "the backup", "restore /media/stick/book.db", action, run_restore);
  add_verb(*group, "merge", "Take in everything of another book; where both changed the same entry, list it (exit 1)", "the other book", "merge laptop.db", action, run_merge);
}

}  // namespace exworks::cli
