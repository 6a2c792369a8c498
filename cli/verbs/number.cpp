#include <iostream>

#include "base/file.hpp"
#include "command.hpp"
#include "report/json/assessment_json.hpp"
#include "report/kinds/text_report.hpp"
#include "report/kinds/vin_report.hpp"
#include "assess/number_verdict.hpp"
#include "words/evidence.hpp"

namespace exworks::cli {

namespace {

struct Options {
  std::string text, family, rules, number, made_for;
  bool json = false;
};

struct Read {
  const Tables* tables;
  NumberRead read;
};

int run(const Options& options) {
  const Rules rules = rules_folders(options.rules);
  std::vector<Tables> packs;
  if (!options.family.empty()) packs.push_back(load_pack(rules, options.family));
  else packs = load_every_pack(rules);
  std::vector<Read> read, unread;
  for (const Tables& t : packs) {
    for (std::size_t n = 0; n < t.numbers.size(); ++n) {
      if (!options.number.empty() && t.numbers[n].id != options.number) continue;
      NumberRead r;
      r.number = n;
      r.text = options.text;
      r.readings = read_number(options.text, t.numbers[n].grammars());
      if (r.readings.empty()) r.unread = explain_failure(options.text, t.numbers[n].grammars());
      (r.readings.empty() ? unread : read).push_back({&t, std::move(r)});
    }
  }
  std::optional<VinReading> vin;
  if (strip(options.text).text.size() == 17 || !options.made_for.empty()) {
    VinQuestion question;
    question.made_for = options.made_for;
    vin = read_vin(options.text, question);
  }
  std::stable_sort(read.begin(), read.end(), [](const Read& a, const Read& b) { return a.read.readings.front().slips.size() < b.read.readings.front().slips.size(); });
  if (options.json) {
    nlohmann::ordered_json out = nlohmann::ordered_json::array();
    for (const Read& r : read) {
      auto one = json_number(*r.tables, describe_number(*r.tables, r.read));
      one.erase("agrees");
      one.erase("p_own");
      one["family"] = r.tables->family;
      out.push_back(std::move(one));
    }
    if (vin) out.push_back(json_vin(*vin));
    std::cout << out.dump(2) << '\n';
  } else {
    if (vin) std::cout << text_vin(*vin, colour_wanted());
    for (const Read& r : read) std::cout << text_number(*r.tables, describe_number(*r.tables, r.read), colour_wanted());
  }
  if (!read.empty() || vin) return done;
  std::cerr << "no pack reads '" << options.text << "'";
  if (unread.empty()) std::cerr << "; no pack has such a number";
  std::cerr << '\n';
  for (const Read& r : unread) std::cerr << "  " << r.tables->family << ", " << r.tables->numbers[r.read.number].name << ": " << failure_words(r.read) << '\n';
  return answer_is_no;
}

}  // namespace

void add_number(CLI::App& app, Action& action) {
  auto* verb = app.add_subcommand("number", "Read an identity number: what each part means, and when such a number was issued");
  auto options = std::make_shared<Options>();
  verb->add_option("TEXT", options->text, "the number as it stands on the vehicle")->required();
  verb->add_option("--family", options->family, "the pack to read it by; without it every pack is tried");
  verb->add_option("--number", options->number, "which number of the pack (car-number, engine-number ...)");
  verb->add_option("--made-for", options->made_for, "read it as a 17-character number of a vehicle first sold in this country (US ...); any number of 17 characters is read so as well");
  verb->add_option("--rules", options->rules, "the folder of packs; without it $EXWORKS_RULES, else the one that came with the program");
  verb->add_flag("--json", options->json, "print JSON");
  verb->footer(std::string("Example: exworks number --family aldermoor-carrier \"AC2 V 31205 K\"\nExit 1: no pack reads it.\n") + exit_codes);
  verb->callback([options, &action] { action = [options] { return run(*options); }; });
}

}  // namespace exworks::cli
