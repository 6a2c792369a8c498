#include "options/options.hpp"
#include "verbs/verbs.hpp"

/// What is used at the vehicle: assess, number, next, serve.
namespace exworks::cli {

void add_assess(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("assess", "Which build is it, and what of it is as it left the works?");
  auto options = std::make_shared<AssessArguments>();
  verb->add_option("FILE", options->files, "the inspection (XML; - for standard input), or several; with --book, jobs by number or reference (one with --json, --full or --given: the whole report)");
  verb->add_option("--family", options->family, "the pack to use; without it the inspection's own, else every pack is tried");
  add_rules_option(*verb, options->rules);
  verb->add_option("--given", options->given, "take as true: variant=, generation=, body=, market=, plant=, built=1954-01/1954-12, number=own|not-own (may be repeated)")->allow_extra_args(false);
  verb->add_option("--rates", options->rates, "rates of change learned from confirmed vehicles, in place of the pack's (see exworks learn)");
  verb->add_flag("--full", options->full, "the facts and figures behind every line");
  add_json_option(*verb, options->json);
  verb->add_flag("--jsonl", options->jsonl, "print a line of JSON for each inspection");
  verb->add_flag("--quick", options->quick, "verdicts alone: without the fit check, both readings, and what an answer hangs on");
  auto* book = verb->add_option("--book", options->book.book, "assess jobs of this job book, and keep the assessments in it");
  verb->add_flag("--all", options->all, "every job of the book");
  add_by_option(*verb, options->book);
  verb->get_option("--by")->needs(book);
  add_log_options(*verb, options->log);
  add_footer(*verb, "Example: exworks assess sample-vehicles/morris-minor-1950-saloon.xml\n"
                    "Example: exworks assess --jsonl --quick sample-vehicles/*.xml\n"
                    "Of several, one that fails is reported, the rest go on, and the exit code is 3.\n");
  calls(*verb, options, book, action);
}

void add_number(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("number", "Read an identity number: what each part means, and when such a number was issued");
  auto options = std::make_shared<NumberArguments>();
  verb->add_option("TEXT", options->text, "the number as it stands on the vehicle")->required();
  verb->add_option("--family", options->family, "the pack to read it by; without it every pack is tried");
  verb->add_option("--number", options->number, "which number of the pack (car-number, engine-number ...)");
  verb->add_option("--made-for", options->made_for, "read it as a 17-character number of a vehicle first sold in this country (US ...); any number of 17 characters is read so as well");
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks number --family aldermoor-carrier \"AC2 V 31205 K\"\nExit 1: no pack reads it.\n");
  calls(*verb, options, action);
}

void add_next(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("next", "What to look at next: the unseen features by what they can tell per minute");
  auto options = std::make_shared<NextArguments>();
  verb->add_option("FILE", options->file, "the inspection so far (XML; - for standard input)")->required();
  verb->add_option("--for", options->aim, "what it should settle: the build, the verdicts or both; without it both")->check(CLI::IsMember({"build", "verdicts", "both"}));
  verb->add_option("--minutes", options->minutes, "plan a walk-round that fits into this time")->check(within(0.1, 10000.0));
  verb->add_option("--most", options->most, "how many to list where --minutes is not given; without it 8")->check(CLI::Range(1, 1000));
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks next --minutes 20 sample-vehicles/carrier-seen-from-the-road.xml\n");
  calls(*verb, options, action);
}

void add_serve(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("serve", "The guided inspection in a browser, on this computer or on phones beside the vehicle");
  auto options = std::make_shared<ServeArguments>();
  verb->add_option("--port", options->port, "the port to listen on; 0 for any that is free")->check(CLI::Range(0, 65535));
  verb->add_flag("--lan", options->lan, "let phones on the same network join, each with a code of its own");
  verb->add_option("--rules", options->rules, "the folder of packs");
  add_book_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_log_options(*verb, options->log);
  add_footer(*verb, "Example: exworks serve --lan\nIt prints an address with a code that admits one device; after each use the next. Ctrl-C ends it.\n"
                    "What was asked and refused is noted in exworks/serve.log of $XDG_STATE_HOME (~/.local/state), without what a vehicle or a person is called.\n");
  calls(*verb, options, action);
}

}  // namespace exworks::cli
