#include "options/options.hpp"
#include "verbs/job/verbs.hpp"

namespace exworks::cli {

namespace {

void add_new(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("new", "Begin a job and print its number");
  auto options = std::make_shared<JobNewArguments>();
  verb->add_option("--family", options->family, "the pack to assess it by");
  verb->add_option("--name", options->name, "what the vehicle is called here");
  verb->add_option("--reference", options->reference, "the workshop's or the owner's reference");
  verb->add_option("--owner", options->owner, "the owner; never on an inspection or a report");
  verb->add_option("--purpose", options->purpose, "intake, pre-purchase or owner-note")->check(CLI::IsMember({"intake", "pre-purchase", "owner-note"}));
  verb->add_option("--date", options->date, "of the inspection, 2026-11-20");
  verb->add_option("--note", options->note, "anything that doesn't fit elsewhere");
  verb->add_option("--vehicle-of", options->vehicle_of, "the number of a job on the same vehicle")->check(CLI::PositiveNumber);
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job new --family aldermoor-carrier --reference \"order 12\" --date 2026-11-20\n");
  calls(*verb, options, action);
}

void add_close(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("close", "Mark a job as finished; it stays in the book, and can be opened again");
  auto options = std::make_shared<JobCloseArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  verb->add_flag("--reopen", options->reopen, "open a closed job again");
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job close 12\n");
  calls(*verb, options, action);
}

void add_set(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("set", "Write down what was seen; what stood there before stays in the history");
  auto options = std::make_shared<JobSetArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  verb->add_option("SEEN", options->seen, "FEATURE=VALUE, or FEATURE=not-seen, =missing, =cannot-tell; with --unit the value is a measure");
  auto* number = verb->add_option("--number", options->numbers, "ID=TEXT, as it stands on the vehicle (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--number-state", options->number_state, "how the number came to be there: as-found, restamped, replaced-plate or copied")
      ->check(CLI::IsMember({"as-found", "restamped", "replaced-plate", "copied"}))->needs(number);
  verb->add_option("--claimed", options->claims, "what is claimed, in words NAME=VALUE: by, built, generation, variant, body, market, plant (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--document", options->documents, "a paper, in words NAME=VALUE: kind, date, built, note (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--code", options->codes, "a date code, in words NAME=VALUE: kind, text, feature ... (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--about", options->about, "NAME=TEXT of the job: family, name, reference, owner, date, by, note, purpose (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--withdraw", options->withdraw, "take back the entry of this name (may be repeated)")->take_all()->allow_extra_args(false);
  verb->add_option("--unit", options->unit, "of a measure: mm, in, cc, l, cu-in, kg, lb, V or none");
  verb->add_option("--how", options->how, "seen, measured, read, photo or told");
  verb->add_option("--sure", options->sure, "sure, probable or guess");
  verb->add_option("--note", options->note, "what else there is to say");
  verb->add_option("--photo", options->photo, "the name of the photo that shows it");
  verb->add_option("--wear", options->wear, "against the rest of the vehicle: consistent, fresher or older");
  verb->add_option("--mark", options->mark, "a mark on the part: maker, other-maker or none");
  add_rules_option(*verb, options->rules);
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job set 12 headlamp-position=low --sure probable --note \"under new paint\"\n"
                    "         exworks job set 12 --claimed \"by=seller built=1954\" --document \"kind=registration date=1954-03\"\n");
  calls(*verb, options, action);
}

void add_list(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("list", "Find jobs, the latest first; with --words those with the latest such note");
  auto options = std::make_shared<JobListArguments>();
  verb->add_option("--where", options->where,
                   "NAME=VALUE: family, number (its beginning will do), reference, owner, state, date (2026, 2026-11, or 2025..2026-03), "
                   "later, original or uncertain (a feature or assembly with that verdict); several narrow it")
      ->take_all()->allow_extra_args(false);
  verb->add_option("--words", options->words, "words that a note of the job holds");
  verb->add_option("--most", options->most, "how many to show; without it 50")->check(CLI::Range(1, 1'000'000));
  add_redact_option(*verb, *options);
  add_book_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job list --where later=gearbox --where date=2025..2026\nExample: exworks job list --words \"drilled through\"\n");
  calls(*verb, options, action);
}

void add_show(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("show", "Everything that a job holds now, or all that was ever thought");
  auto options = std::make_shared<JobShowArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  verb->add_flag("--history", options->history, "every entry ever made, with who and when");
  add_redact_option(*verb, *options);
  add_book_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job show 12 --history\n");
  calls(*verb, options, action);
}

void add_import(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("import", "Take in inspections (XML) or bundles from another workshop, each as a job");
  auto options = std::make_shared<JobImportArguments>();
  verb->add_option("FILE", options->files, "inspections or bundles")->required();
  verb->add_option("--into", options->into, "add the entries to this job instead")->check(CLI::PositiveNumber);
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_log_options(*verb, options->log);
  add_footer(*verb, "Example: exworks job import sample-vehicles/carrier-gearbox-from-a-later-van.xml\n");
  calls(*verb, options, action);
}

void add_export(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("export", "Write a job as an inspection (XML), or as a bundle with its photos and assessment");
  auto options = std::make_shared<JobExportArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  auto* file = verb->add_option("--output", options->output, "write the XML to this file instead of standard output");
  verb->add_option("--bundle", options->bundle, "write a bundle (zip) to this file")->excludes(file);
  add_overwrite_option(*verb, options->overwrite);
  add_redact_option(*verb, *options);
  add_book_option(*verb, *options);
  add_footer(*verb, "Example: exworks job export 12 --bundle van.zip\n");
  calls(*verb, options, action);
}

void add_photo(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("photo", "Keep photos with a job: the original bytes, beside the book");
  auto options = std::make_shared<JobPhotoArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  verb->add_option("FILE", options->files, "the photos")->required();
  verb->add_option("--feature", options->feature, "the feature that they show");
  verb->add_option("--note", options->note, "what they show");
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job photo 12 under-3.jpg --feature gearbox-casing\n");
  calls(*verb, options, action);
}

void add_forget(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("forget", "Remove a person's data from a job and its history, and keep what was seen of the vehicle");
  auto options = std::make_shared<JobForgetArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  add_book_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job forget 12\nIt can't be taken back.\n");
  calls(*verb, options, action);
}

void add_compare(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("compare", "Which verdicts differ between two assessments, and which fact did it");
  auto options = std::make_shared<JobCompareArguments>();
  verb->add_option("A", options->a, "a job's number (its latest assessment), or 12.1 for the first of job 12")->required();
  verb->add_option("B", options->b, "the other")->required();
  add_book_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job compare 12.1 12.2\n");
  calls(*verb, options, action);
}

void add_reassess(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("reassess", "Assess a job with the pack as it is now, keep it, and compare with the last");
  auto options = std::make_shared<JobReassessArguments>();
  verb->add_option("JOB", options->job, "the job's number")->required();
  add_rules_option(*verb, options->rules);
  add_book_option(*verb, *options);
  add_by_option(*verb, *options);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks job reassess 12\n");
  calls(*verb, options, action);
}

}  // namespace

void add_job(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("job", "The job book: a vehicle's inspection over weeks, by several people, with all that was thought before");
  group->require_subcommand(1);
  add_footer(*group, "Example: exworks job new --family aldermoor-carrier --reference \"order 12\"\n");
  for (const auto add : {add_new, add_close, add_set, add_list, add_show, add_import, add_export, add_photo, add_forget, add_compare, add_reassess}) add(*group, action);
}

}  // namespace exworks::cli
