#include <iostream>

#include "base/file.hpp"
#include "engine/compile/compiler.hpp"
#include "verbs/pack/common.hpp"
#include "pdf.hpp"
#include "report/render/timeline_drawing.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string family, rules, file;
  int columns = 0;
  bool json = false, overwrite = false;
};

int run(const Options& options) {
  const bool html = options.file.ends_with(".html"), svg = options.file.ends_with(".svg"), pdf = options.file.ends_with(".pdf");
  if (!options.file.empty() && !html && !svg && !pdf) {
    std::cerr << options.file << ": the name ends in neither .svg, .html nor .pdf; give it the ending of what you want\n";
    return bad_usage;
  }
  refuse_existing(options.file, options.overwrite);
  const Tables tables = compile(read_named_pack(options.family, options.rules));
  const Timeline timeline = make_timeline(tables);
  if (!options.file.empty()) write_file(options.file, html ? html_timeline(tables, timeline) : pdf ? pdf_of(html_timeline(tables, timeline)) : svg_timeline(tables, timeline, options.columns));
  if (options.json) std::cout << json_timeline(tables, timeline).dump(2) << '\n';
  else if (options.file.empty()) std::cout << svg_timeline(tables, timeline, options.columns);
  return done;
}

}  // namespace

void add_pack_timeline(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("timeline", "Draw a family's features as bars over the years, by market");
  auto options = std::make_shared<Options>();
  verb->add_option("FAMILY", options->family, "the pack's name or folder")->required();
  verb->add_option("-o", options->file, "write to FILE.svg (one sheet), FILE.html (flows to a phone, a screen or A3 paper) or FILE.pdf (A3); without it SVG on standard output");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--columns", options->columns, "columns of the SVG: 1 for a phone; without it as many as suit A3 on its side")->check(CLI::Range(1, 40));
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->json, "print the bars as JSON");
  verb->footer(std::string("Example: exworks pack timeline morris-minor -o morris-minor.html\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
