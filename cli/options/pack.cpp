#include "options/options.hpp"
#include "verbs/pack/verbs.hpp"

namespace exworks::cli {

namespace {

void add_check(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("check", "Find every mistake in a pack, in one run");
  auto options = std::make_shared<PackCheckArguments>();
  verb->add_option("FOLDER", options->folder, "the pack's folder, or the name of an installed pack")->required();
  verb->add_flag("--strict", options->strict, "is it fit to publish? A warning is then a no too");
  verb->add_option("--since", options->since, "with --strict: the folder of the edition before, whose version must be another when the files differ");
  verb->add_flag("--all", options->all, "every message; without it the " + std::to_string(message_limit) + " most serious");
  verb->add_flag("--quiet", options->quiet, "leave out the notes");
  verb->add_option("--rules", options->rules, "the folder of packs");
  verb->add_flag("--json", options->json, "print JSON, with every message");
  add_footer(*verb, "--strict adds: every value says how to recognise it, every feature asks something, every later change says how to\n"
                    "spot it and the hours to put it back, every form has an example, every source is cited, a disputed fact has two\n"
                    "sources, and at least " + std::to_string(enough_reference_vehicles) + " reference vehicles come out as described. A pack that extends another answers for its own lines.\n"
                    "Example: exworks pack check rules/aldermoor-carrier\nExample: exworks pack check --strict aldermoor-carrier\n");
  calls(*verb, options, action);
}

void add_test(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("test", "Run a pack's reference vehicles against their published descriptions");
  auto options = std::make_shared<PackTestArguments>();
  verb->add_option("FOLDER", options->folder, "the pack's folder, or the name of an installed pack")->required();
  verb->add_option("--rules", options->rules, "the folder of packs");
  add_json_option(*verb, options->json);
  add_footer(*verb, "A pack that extends another is tried with the other's reference vehicles too.\nExample: exworks pack test rules/aldermoor-carrier\n");
  calls(*verb, options, action);
}

void add_show(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("show", "List what a pack knows, each with its id: generations, variants, bodies, markets, plants, features, values, numbers");
  auto options = std::make_shared<PackShowArguments>();
  verb->add_option("FAMILY", options->folder, "the pack's name or folder")->required();
  verb->add_option("--rules", options->rules, "the folder of packs");
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks pack show aldermoor-carrier\n");
  calls(*verb, options, action);
}

void add_coverage(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("coverage", "What a pack covers: which features date a vehicle and how finely, on what sources, and where it is silent");
  auto options = std::make_shared<PackCoverageArguments>();
  verb->add_option("FAMILY", options->family, "the pack's name or folder");
  verb->add_flag("--all", options->all, "every pack in the folder of packs (with --markdown: every real one)");
  verb->add_option("-n", options->n, "vehicles to simulate for the median date windows; without it 300")->check(CLI::Range(1, 1'000'000));
  verb->add_option("--by-year", options->n_year, "vehicles to simulate for each generation and year; 0 leaves out the windows by year; without it 20")->check(CLI::Range(0, 100'000));
  verb->add_option("--seed", options->seed, "where the chance begins; same seed, same figures; without it 1");
  add_rules_option(*verb, options->rules);
  auto* json = verb->add_flag("--json", options->json, "print JSON");
  verb->add_flag("--markdown", options->markdown, "print a row of the README's table (with --all: the table)")->excludes(json);
  add_footer(*verb, "Example: exworks pack coverage morris-minor\nExample: exworks pack coverage --all --markdown\n");
  calls(*verb, options, action);
}

void add_explain(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("explain", "What was right for one feature, when, on which vehicles and by which source");
  auto options = std::make_shared<PackExplainArguments>();
  verb->add_option("FEATURE", options->feature, "the feature's id (exworks pack show lists them)")->required();
  verb->add_option("--family", options->family, "the pack's name or folder")->required();
  verb->add_option("--year", options->year, "only vehicles built in this year")->check(CLI::Range(1, 9999));
  verb->add_option("--market", options->market, "only vehicles sold new in this market");
  verb->add_option("--variant", options->variant, "only this variant");
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks pack explain headlamp-position --family aldermoor-carrier --year 1958 --market home\nExit 1: no such vehicle was built.\n");
  calls(*verb, options, action);
}

void add_timeline(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("timeline", "Draw a family's features as bars over the years, by market");
  auto options = std::make_shared<PackTimelineArguments>();
  verb->add_option("FAMILY", options->family, "the pack's name or folder")->required();
  verb->add_option("-o", options->file, "write to FILE.svg (one sheet), FILE.html (flows to a phone, a screen or A3 paper) or FILE.pdf (A3); without it SVG on standard output");
  add_overwrite_option(*verb, options->overwrite);
  verb->add_option("--columns", options->columns, "columns of the SVG: 1 for a phone; without it as many as suit A3 on its side")->check(CLI::Range(1, 40));
  add_rules_option(*verb, options->rules);
  verb->add_flag("--json", options->json, "print the bars as JSON");
  add_footer(*verb, "Example: exworks pack timeline morris-minor -o morris-minor.html\n");
  calls(*verb, options, action);
}

void add_from_table(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("from-table", "Make a pack from a table of facts (CSV)");
  auto options = std::make_shared<PackFromTableArguments>();
  verb->add_option("FACTS.csv", options->input, "columns feature,value,variants,markets,from,to,fitted,source (- for standard input)")->required();
  verb->add_option("-o", options->output, "the new pack's folder; its name becomes the pack's id")->required();
  verb->add_option("--name", options->name, "the family's name for people; without it the id");
  add_overwrite_option(*verb, options->overwrite);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Rows whose feature is 'market' or 'variant' name those; a variant's from and to are its window of production.\n"
                    "A source is trade, memory, or title | publisher | year or URL; several are divided by ;\n"
                    "Example: exworks pack from-table facts.csv -o my-family --name \"My family\"\n");
  calls(*verb, options, action);
}

void add_to_table(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("to-table", "Write a pack's variants and facts as a table (CSV)");
  auto options = std::make_shared<PackToTableArguments>();
  verb->add_option("FAMILY", options->input, "the pack's name or folder")->required();
  verb->add_option("-o", options->output, "write to this file instead of standard output");
  add_overwrite_option(*verb, options->overwrite);
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks pack to-table aldermoor-carrier -o carrier.csv\n");
  calls(*verb, options, action);
}

void add_upgrade(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("upgrade", "Rewrite a pack of format 1 in format 2, in place");
  auto options = std::make_shared<PackUpgradeArguments>();
  verb->add_option("FOLDER", options->folder, "the pack's folder")->required();
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Comments and all else stay as they are; what means nothing any more (slip, and the rates of looks of format 1) is dropped and named.\n"
                    "Example: exworks pack upgrade rules/aldermoor-carrier\n");
  calls(*verb, options, action);
}

void add_new(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("new", "Begin a pack: a small valid one with comments that say what to write where");
  auto options = std::make_shared<PackNewArguments>();
  verb->add_option("ID", options->id, "the pack's id: lower-case letters, digits and hyphens")->required();
  verb->add_option("--name", options->name, "the family's name for people");
  verb->add_option("--market", options->markets, "a market and its steering: \"Home market:right\" (may be repeated)")->take_all();
  verb->add_option("--variant", options->variants, "a variant and its months: \"Series 1 van=1951-03/1955-06\" (may be repeated)")->take_all();
  verb->add_option("--in", options->folder, "the folder in which the pack's folder is made; without it the present one");
  add_overwrite_option(*verb, options->overwrite);
  add_json_option(*verb, options->json);
  add_footer(*verb, "On a terminal it asks for what the options leave out.\n"
                    "Example: exworks pack new my-van --name \"My van\" --market \"Home market:right\" --variant \"Series 1 van=1951-03/1955-06\"\n");
  calls(*verb, options, action);
}

void add_diff(CLI::App& group, Action& action) {
  auto* verb = group.add_subcommand("diff", "What one edition of a pack says otherwise than another, and which verdicts it moves");
  auto options = std::make_shared<PackDiffArguments>();
  verb->add_option("A", options->before, "the pack as it was: its name or folder")->required();
  verb->add_option("B", options->after, "the pack as it is")->required();
  verb->add_option("--vehicles", options->vehicles, "inspections, or folders of them, to assess by both (default: the reference vehicles of the two)")->expected(1, -1);
  add_rules_option(*verb, options->rules);
  add_json_option(*verb, options->json);
  add_footer(*verb, "Example: exworks pack diff old/aldermoor-carrier rules/aldermoor-carrier --vehicles sample-vehicles/carrier-seen-from-the-road.xml\n");
  calls(*verb, options, action);
}

}  // namespace

void add_pack(CLI::App& app, Action& action) {
  auto* group = app.add_subcommand("pack", "Read, check and test rule packs");
  group->require_subcommand(1);
  add_footer(*group, "Example: exworks pack show aldermoor-carrier\n");
  for (const auto add : {add_check, add_test, add_show, add_coverage, add_explain, add_timeline, add_from_table, add_to_table, add_upgrade, add_new, add_diff}) add(*group, action);
}

}  // namespace exworks::cli
