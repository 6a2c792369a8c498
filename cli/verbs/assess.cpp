#include <functional>
#include <iostream>
#include <nlohmann/json.hpp>

#include "assess/questions/families.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "engine/evidence/given.hpp"
#include "record/inspection_reader.hpp"
#include "report/json/assessment_json.hpp"
#include "report/kinds/console.hpp"
#include "report/render/render.hpp"
#include "study/rates_file.hpp"
#include "verbs/assess_batch.hpp"
#include "verbs/open_book.hpp"
#include "verbs/verbs.hpp"
#include "words/english/english.hpp"
#include "words/english/scales.hpp"
#include "workshop/job_assessment.hpp"
#include "workshop/job_inspection.hpp"
#include "workshop/jobs.hpp"

namespace exworks::cli {

namespace {

using Options = AssessArguments;

/// Tries every pack; says so, and returns the best one's index, or nothing when none fits.
std::optional<std::size_t> choose_family(const std::vector<Tables>& packs, const Inspection& inspection, const Options& options) {
  std::vector<const Tables*> pointers;
  for (const Tables& t : packs) pointers.push_back(&t);
  const std::vector<FamilyOdds> odds = family_odds(pointers, inspection);
  const auto name = [&](const FamilyOdds& o) { return o.pack < packs.size() ? packs[o.pack].family : std::string("none"); };
  if (odds.front().pack < packs.size()) {
    tell("note: no family was named; '", name(odds.front()), "' fits best (", percent(odds.front().p), " of the odds); name it with --family");
    return odds.front().pack;
  }
  if (options.json) {
    nlohmann::ordered_json out;
    out["family"] = nullptr;
    out["vehicle"] = inspection.vehicle;
    for (const FamilyOdds& o : odds) out["families"].push_back({{"id", name(o)}, {"p", o.p}, {"known", o.known}, {"unknown", o.unknown}});
    print_json(out);
  } else {
    std::cout << "None of the packs fits this vehicle.\n";
    for (const FamilyOdds& o : odds) {
      if (o.pack < packs.size()) std::cout << "  " << name(o) << ": " << percent(o.p) << " of the odds; knows " << o.known << " of " << counted(o.known + o.unknown, "entry", "entries") << '\n';
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
    std::vector<Tables> packs = load_every_tables(rules);
    const auto best = choose_family(packs, inspection, options);
    if (!best) return done;
    tables = std::move(packs[*best]);
  } else {
    tables = load_tables(family, rules);
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
  if (options.given.empty() && options.rates.empty()) keep({&tables, inspection, *assessment});
  if (options.json) print_json(json_report({tables, inspection, *assessment}));
  else std::cout << render_text(tables, console_report({tables, inspection, *assessment}, options.full), colour_wanted());
  return done;
}

int run_file(const Options& options) {
  return report_on(options, load_inspection(options.files.front()), [](const Assessed&) {});
}

/// A job of the book as one inspection; its assessment is kept before it is shown.
int run_job(const Options& options) {
  Book book = open_existing_book(options.book);
  const std::int64_t job = find_job(book, options.files.front());
  const std::string xml = xml_of_entries(book.entries(job), false);
  Diagnostics diagnostics;
  const auto inspection = read_inspection(xml, "job " + std::to_string(job), diagnostics);
  print(diagnostics, true);
  if (!inspection) return bad_input;
  return report_on(options, *inspection, [&](const Assessed& a) { book.add_assessments({to_store(job, xml, a)}, who(options.book)); });
}

}  // namespace

/// One file is a report; several, a book's jobs, or --jsonl a batch.
int run(const AssessArguments& a) {
  if (a.of_book ? a.all == !a.files.empty() : a.all || a.files.empty()) {
    tell(a.of_book ? "with --book, name jobs by number or reference, or give --all" : "name the inspection to assess; --all goes with --book FILE");
    return bad_usage;
  }
  const bool whole = a.json || a.full || !a.given.empty() || !a.rates.empty();
  if (a.of_book && whole && a.files.size() == 1 && !a.jsonl && !a.quick) return run_job(a);
  const bool several = a.of_book || a.jsonl || a.quick || a.files.size() > 1;
  if (several && whole) {
    tell("--json, --full, --given and --rates are for one inspection or job; --jsonl prints a line of JSON for each of several");
    return bad_usage;
  }
  return several ? run_batch(a) : run_file(a);
}

}  // namespace exworks::cli
