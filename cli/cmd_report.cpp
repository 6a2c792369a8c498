#include <algorithm>
#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "infer/given.hpp"
#include "pdf.hpp"
#include "photos.hpp"
#include "report/render.hpp"
#include "report/report.hpp"
#include "report/terms.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string file, kind = "pre-purchase", output, family, rules, paper, terms = "en-GB", date, sales;
  std::vector<std::string> given, parts;
  double rate = 0, trend = 0;
  int condition = 0;
  bool redacted = false, overwrite = false, json = false;
};

ReportOptions report_options(const Options& o) {
  ReportOptions out;
  out.kind = o.kind == "intake" ? ReportKind::intake : o.kind == "owner" ? ReportKind::owner : ReportKind::pre_purchase;
  out.region = o.terms == "en-US" ? Region::en_US : o.terms == "en-AU" ? Region::en_AU : Region::en_GB;
  out.paper = o.paper.empty() ? (out.region == Region::en_US ? "letter" : "A4") : (o.paper == "letter" ? "letter" : "A4");
  out.date = o.date.empty() ? today() : o.date;
  out.program = "exworks " EXWORKS_VERSION;
  return out;
}

/// Parts as `change=amount` or `feature=amount`.
std::optional<double> parts_for(const Options& o, const Tables& t, const FeatureVerdict& f) {
  for (const std::string& p : o.parts) {
    const std::size_t cut = p.find('=');
    const std::string id = p.substr(0, cut);
    if (id == f.id || (f.later_change && id == t.changes[*f.later_change].id)) return std::stod(p.substr(cut + 1));
  }
  return std::nullopt;
}

Valuation valuation(const Options& o, const Tables& t, const Assessment& a, Month valued) {
  Diagnostics diagnostics;
  const auto sales = read_comparables(read_file(o.sales), o.sales, diagnostics);
  print(diagnostics, true);
  if (diagnostics.has_errors()) throw BadInput{};
  ValuationSubject subject{valued, a.date.most_likely.year(), t.variants[a.variants.front().index].name, std::nullopt, std::nullopt, o.trend / 100};
  for (const Comparable& c : sales) {
    if (c.variant == t.variants[a.variants.front().index].id) subject.variant = c.variant;  // the file may use names or ids
  }
  if (o.condition > 0) subject.condition = o.condition;
  if (a.score.weight > 0) subject.originality = 100 * a.score.value;
  Valuation v = value_note(sales, subject);
  v.rate = o.rate;
  std::vector<std::size_t> told;
  for (const FeatureVerdict& f : a.features) {
    if (f.verdict != VerdictKind::later_change) continue;
    if (f.later_change) {
      if (std::find(told.begin(), told.end(), *f.later_change) != told.end()) continue;
      told.push_back(*f.later_change);
    }
    const auto parts = parts_for(o, t, f);
    v.changes.push_back({f.later_change ? t.changes[*f.later_change].name : f.name + ": " + f.observed, f.hours, f.hours * o.rate, parts.value_or(0), parts.has_value()});
  }
  return v;
}

int run(const Options& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  const ReportOptions options = report_options(o);
  std::string why;
  const auto dated = parse_edge(options.date, &why);
  if (options.date.size() != 10 || !dated) {
    std::cerr << "--date '" << options.date << "' is not a day; write it 2026-11-20\n";
    return bad_usage;
  }
  Inspection inspection = load_inspection(o.file);
  const std::string family = o.family.empty() ? inspection.family : o.family;
  if (family.empty()) {
    std::cerr << o.file << ": the inspection names no family; add family=\"...\" to it, or give --family\n";
    return bad_usage;
  }
  const Tables tables = in_terms(load_pack(rules_folders(o.rules), family), options.region);
  Diagnostics diagnostics;
  const Given given = parse_given(tables, o.given, {"--given", 0, 0}, diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics, true);
    return bad_usage;
  }
  auto assessment = assess(tables, inspection, Settings{}, given, diagnostics);
  print(diagnostics, true);
  if (!assessment) return bad_input;
  Diagnostics again;  // the same remarks as above
  const NextChecks next = next_checks(tables, inspection, Aim::both, std::nullopt, 8, again);
  if (o.redacted) redact(*assessment, inspection);
  const auto photos = o.redacted ? std::map<std::string, std::string>{} : load_photos(inspection, o.file);
  std::optional<Valuation> value;
  if (!o.sales.empty()) value = valuation(o, tables, *assessment, dated->first);
  const ReportInput input{tables, *assessment, inspection, next, photos, value ? &*value : nullptr};
  const Report report = build_report(input, options);
  write_output(o.output, ending, ending == "txt" ? "" : render_html(tables, report), ending == "txt" ? render_text(tables, report) : "");
  if (o.json) {
    const nlohmann::ordered_json written = {{"format", 1}, {"written", o.output}, {"kind", o.kind}, {"paper", options.paper}, {"language", report.language}, {"date", options.date}, {"photos", photos.size()}};
    std::cout << written.dump(2) << '\n';
  }
  return done;
}

/// For --parts: an id, an equals sign and an amount.
std::string check_parts(const std::string& text) {
  const std::size_t cut = text.find('=');
  if (cut == 0 || cut == std::string::npos || text.find_first_not_of("0123456789.", cut + 1) != std::string::npos || cut + 1 == text.size() || text.size() - cut > 16 || text[cut + 1] == '.') return "write it CHANGE=AMOUNT, such as engine-1098=450";
  return {};
}

}  // namespace

void add_report(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("report", "A report for a buyer, a workshop's intake or the owner, as HTML, PDF or text");
  auto options = std::make_shared<Options>();
  verb->add_option("FILE", options->file, "the inspection (XML; - for standard input); its photos lie beside it")->required();
  verb->add_option("-o,--output", options->output, "the file to write: its ending .html, .pdf or .txt decides the form")->required();
  verb->add_option("--kind", options->kind, "pre-purchase, intake or owner")->check(CLI::IsMember({"pre-purchase", "intake", "owner"}));
  verb->add_option("--terms", options->terms, "trade terms, dates and units: en-GB, en-US or en-AU")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the report's date, 2026-11-20; without it today");
  verb->add_option("--given", options->given, "take as true, as for assess (may be repeated)")->allow_extra_args(false);
  verb->add_option("--sales", options->sales, "comparable sales for the owner's note on value (CSV: date,price,currency,year,variant,condition,originality,note)");
  verb->add_option("--condition", options->condition, "the vehicle's condition for the note, 1 (best) to 5")->check(CLI::Range(1, 5));
  verb->add_option("--trend", options->trend, "how prices change, in per cent a year")->check(CLI::Range(-50.0, 50.0));
  verb->add_option("--rate", options->rate, "an hour of work, in the currency of the sales")->check(CLI::Range(0.0, 1e6));
  verb->add_option("--parts", options->parts, "parts to put a change back: CHANGE=AMOUNT or FEATURE=AMOUNT (may be repeated)")->check(check_parts);
  verb->add_flag("--redact", options->redacted, "leave out numbers, references, names, notes and photos");
  verb->add_flag("--overwrite", options->overwrite, "replace the file if it exists");
  verb->add_option("--family", options->family, "the pack to use instead of the inspection's own");
  verb->add_option("--rules", options->rules, "the folder of packs");
  verb->add_flag("--json", options->json, "print what was written as JSON");
  verb->footer(std::string("Example: exworks report sample-vehicles/morris-minor-1950-saloon.xml --kind owner -o owner.pdf\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
