#include <iostream>

#include "base/file.hpp"
#include "workshop/batch.hpp"
#include "workshop/book_assess.hpp"
#include "workshop/book_inspection.hpp"
#include "command.hpp"
#include "engine/infer/given.hpp"
#include "record/inspection_reader.hpp"
#include "report/json/assessment_json.hpp"
#include "study/rates_file.hpp"
#include "report/kinds/text_report.hpp"
#include "assess/families.hpp"
#include "words/scales.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string file, family, rules, rates;
  std::vector<std::string> given;
  bool json = false, full = false;
  BatchOptions batch;
  BookOptions book;
};

/// Tries every pack; says so, and returns the best one's index, or nothing when none fits.
std::optional<std::size_t> choose_family(const std::vector<Tables>& packs, const Inspection& inspection, const Options& options) {
  std::vector<const Tables*> pointers;
  for (const Tables& t : packs) pointers.push_back(&t);
  const std::vector<FamilyOdds> odds = family_odds(pointers, inspection);
  const auto name = [&](const FamilyOdds& o) { return o.pack < packs.size() ? packs[o.pack].family : std::string("none"); };
  if (odds.front().pack < packs.size()) {
    std::cerr << "note: no family was named; '" << name(odds.front()) << "' fits best (" << percent(odds.front().p) << " of the odds); name it with --family\n";
    return odds.front().pack;
  }
  if (options.json) {
    nlohmann::ordered_json out;
    out["family"] = nullptr;
    out["vehicle"] = inspection.vehicle;
    for (const FamilyOdds& o : odds) out["families"].push_back({{"id", name(o)}, {"p", o.p}, {"known", o.known}, {"unknown", o.unknown}});
    std::cout << out.dump(2) << '\n';
  } else {
    std::cout << "None of the packs fits this vehicle.\n";
    for (const FamilyOdds& o : odds) {
      if (o.pack < packs.size()) std::cout << "  " << name(o) << ": " << percent(o.p) << " of the odds; knows " << o.known << " of " << o.known + o.unknown << " entries\n";
    }
  }
  return std::nullopt;
}

/// Prints the whole assessment; `keep` is given it too when nothing was assumed.
int report_on(const Options& options, const Inspection& inspection, const std::function<void(const Assessed&)>& keep) {
  const Rules rules = rules_folders(options.rules);
  const std::string family = options.family.empty() ? inspection.family : options.family;
  Tables tables;
  if (family.empty()) {
    std::vector<Tables> packs = load_every_pack(rules);
    const auto best = choose_family(packs, inspection, options);
    if (!best) return done;
    tables = std::move(packs[*best]);
  } else {
    tables = load_pack(rules, family);
  }
  Diagnostics diagnostics;
  if (!options.rates.empty()) {
    const LearnedRates rates = read_rates(read_file(options.rates), options.rates, diagnostics);
    if (!diagnostics.has_errors()) apply_rates(tables, rates, options.rates, diagnostics);
    print(diagnostics, true);
    if (diagnostics.has_errors()) return bad_input;
  }
  const Given given = parse_given(tables, options.given, {"--given", 0, 0}, diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics, true);
    return bad_usage;
  }
  const auto assessment = assess(tables, inspection, Settings{}, given, diagnostics);
  print(diagnostics, true);
  if (!assessment) return bad_input;
  // What was assumed for the sake of a question is no finding on the job.
  if (options.given.empty() && options.rates.empty()) keep({&tables, *assessment});
  if (options.json) std::cout << json_report(tables, *assessment).dump(2) << '\n';
  else std::cout << text_report(tables, *assessment, colour_wanted(), options.full);
  return done;
}

int run(const Options& options) {
  return report_on(options, load_inspection(options.file), [](const Assessed&) {});
}

/// A job of the book as one inspection; its assessment is kept before it is shown.
int run_job(const Options& options) {
  Book book = open_existing_book(options.book);
  const std::int64_t job = find_job(book, options.batch.files.front());
  const std::string xml = xml_of_entries(book.entries(job), false);
  Diagnostics diagnostics;
  const auto inspection = read_inspection(xml, "job " + std::to_string(job), diagnostics);
  print(diagnostics, true);
  if (!inspection) return bad_input;
  return report_on(options, *inspection, [&](const Assessed& a) { book.add_assessments({to_store(job, xml, a)}, who(options.book)); });
}

/// One file is a report; several, a book's jobs, or --jsonl a batch.
int choose(const Options& options, bool of_book) {
  const BatchOptions& b = options.batch;
  if (of_book ? b.all == !b.files.empty() : b.all || b.files.empty()) {
    std::cerr << (of_book ? "with --book, name jobs by number or reference, or give --all\n" : "name the inspection to assess; --all goes with --book FILE\n");
    return bad_usage;
  }
  const bool whole = options.json || options.full || !options.given.empty() || !options.rates.empty();
  if (of_book && whole && b.files.size() == 1 && !b.jsonl && !b.quick) return run_job(options);
  const bool batch = of_book || b.jsonl || b.quick || b.files.size() > 1;
  if (batch && whole) {
    std::cerr << "--json, --full, --given and --rates are for one inspection or job; --jsonl prints a line of JSON for each of several\n";
    return bad_usage;
  }
  if (of_book) return batch_of_book(b, options.book);
  return batch ? batch_of_files(b) : run(options);
}

}  // namespace

void add_assess(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("assess", "Which build is it, and what of it is as it left the works?");
  auto options = std::make_shared<Options>();
  verb->add_option("FILE", options->batch.files, "the inspection (XML; - for standard input), or several; with --book, jobs by number or reference (one with --json, --full or --given: the whole report)");
  verb->add_option("--family", options->family, "the pack to use; without it the inspection's own, else every pack is tried");
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_option("--given", options->given, "take as true: variant=, generation=, body=, market=, plant=, built=1954-01/1954-12, number=own|not-own (may be repeated)")->allow_extra_args(false);
  verb->add_option("--rates", options->rates, "rates of change learned from confirmed vehicles, in place of the pack's (see exworks learn)");
  verb->add_flag("--full", options->full, "the facts and figures behind every line");
  verb->add_flag("--json", options->json, "print JSON");
  verb->add_flag("--jsonl", options->batch.jsonl, "print a line of JSON for each inspection");
  verb->add_flag("--quick", options->batch.quick, "verdicts alone: without the fit check, both readings, and what an answer hangs on");
  auto* book = verb->add_option("--book", options->book.book, "assess jobs of this job book, and keep the assessments in it");
  verb->add_flag("--all", options->batch.all, "every job of the book");
  add_by_option(*verb, options->book);
  verb->get_option("--by")->needs(book);
  verb->footer(std::string("Example: exworks assess sample-vehicles/morris-minor-1950-saloon.xml\n"
                           "Example: exworks assess --jsonl --quick sample-vehicles/*.xml\n"
                           "Of several, one that fails is reported, the rest go on, and the exit code is 3.\n") + exit_codes);
  verb->callback([options, book, &action] {
    action = [options, of_book = book->count() > 0] {
      options->file = options->batch.files.empty() ? "" : options->batch.files.front();
      options->batch.family = options->family;
      options->batch.rules = options->rules;
      return choose(*options, of_book);
    };
  });
}

}  // namespace exworks::cli
