#include <iostream>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "command.hpp"
#include "engine/compile/compiler.hpp"
#include "report/render/timeline_drawing.hpp"
#include "verbs/pack/verbs.hpp"
#include "workshop/pdf.hpp"

namespace exworks::cli {

int run(const PackTimelineArguments& options) {
  const bool html = options.file.ends_with(".html"), svg = options.file.ends_with(".svg"), pdf = options.file.ends_with(".pdf");
  if (!options.file.empty() && !html && !svg && !pdf) {
    tell(options.file, ": the name ends in neither .svg, .html nor .pdf; give it the ending of what you want");
    return bad_usage;
  }
  refuse_existing(options.file, options.overwrite);
  const Rules rules = rules_folders(options.rules);
  const Tables tables = tables_of(load_pack(pack_or_folder(options.family, rules), rules));
  const Timeline timeline = make_timeline(tables);
  if (!options.file.empty()) write_file(options.file, html ? html_timeline(tables, timeline) : pdf ? pdf_of(html_timeline(tables, timeline)) : svg_timeline(tables, timeline, options.columns));
  if (options.json) print_json(json_timeline(tables, timeline));
  else if (options.file.empty()) std::cout << svg_timeline(tables, timeline, options.columns);
  return done;
}

}  // namespace exworks::cli
