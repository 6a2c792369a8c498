#include <iostream>
#include <nlohmann/json.hpp>

#include "command.hpp"
#include "pdf.hpp"
#include "report/render.hpp"
#include "report/sheet.hpp"
#include "report/terms.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string family, file, output, rules, paper, terms = "en-GB", date;
  double minutes = 0;
  bool overwrite = false, json = false;
};

int run(const Options& o) {
  const std::string ending = output_kind(o.output, o.overwrite);
  SheetOptions options;
  options.region = o.terms == "en-US" ? Region::en_US : o.terms == "en-AU" ? Region::en_AU : Region::en_GB;
  options.paper = o.paper == "letter" || (o.paper.empty() && options.region == Region::en_US) ? "letter" : "A4";
  options.date = o.date.empty() ? today() : o.date;
  options.minutes = o.minutes;
  const Tables tables = in_terms(load_pack(rules_folders(o.rules), o.family), options.region);
  Inspection inspection;
  if (!o.file.empty()) inspection = load_inspection(o.file);
  Diagnostics diagnostics;
  const NextChecks next = next_checks(tables, inspection, Aim::both, std::nullopt, 1000, diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics, true);
    return bad_input;
  }
  const Report sheet = inspection_sheet(tables, inspection, next, options);
  write_output(o.output, ending, ending == "txt" ? "" : render_html(tables, sheet), ending == "txt" ? render_text(tables, sheet) : "");
  if (o.json) {
    std::size_t features = 0;
    for (const Block& block : sheet.blocks) features += std::holds_alternative<SheetItem>(block);
    const nlohmann::ordered_json written = {{"format", 1}, {"written", o.output}, {"family", o.family}, {"features", features}, {"paper", options.paper}, {"language", sheet.language}};
    std::cout << written.dump(2) << '\n';
  }
  return done;
}

}  // namespace

void add_sheet(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("sheet", "An inspection sheet for clipboard and pencil");
  auto options = std::make_shared<Options>();
  verb->add_option("FAMILY", options->family, "the pack, such as morris-minor")->required();
  verb->add_option("-o,--output", options->output, "the file to write: .pdf, .html or .txt")->required();
  verb->add_option("--for", options->file, "an inspection begun: only what is still open");
  verb->add_option("--minutes", options->minutes, "a short sheet: only what is worth most in this time")->check(CLI::Range(1.0, 10000.0));
  verb->add_option("--terms", options->terms, "trade terms: en-GB, en-US or en-AU")->check(CLI::IsMember({"en-GB", "en-US", "en-AU"}));
  verb->add_option("--paper", options->paper, "a4 or letter; without it by the terms")->check(CLI::IsMember({"a4", "letter"}));
  verb->add_option("--date", options->date, "the date to print; without it today");
  verb->add_flag("--overwrite", options->overwrite, "replace the file if it exists");
  verb->add_option("--rules", options->rules, "the folder of packs");
  verb->add_flag("--json", options->json, "print what was written as JSON");
  verb->footer(std::string("Example: exworks sheet morris-minor --minutes 20 -o sheet.pdf\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
