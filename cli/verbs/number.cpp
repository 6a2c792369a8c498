#include <iostream>
#include <nlohmann/json.hpp>

#include "assess/number_verdict.hpp"
#include "base/file.hpp"
#include "command.hpp"
#include "report/json/assessment_json.hpp"
#include "report/kinds/console.hpp"
#include "report/render/render.hpp"
#include "report/answers/vin_report.hpp"
#include "verbs/verbs.hpp"
#include "words/numbers.hpp"

namespace exworks::cli {

namespace {

using Options = NumberArguments;

struct Read {
  const Tables* tables;
  NumberRead read;
};

}  // namespace

int run(const NumberArguments& options) {
  const Rules rules = rules_folders(options.rules);
  std::vector<Tables> packs;
  if (!options.family.empty()) packs.push_back(load_tables(options.family, rules));
  else packs = load_every_tables(rules);
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
    print_json(out);
  } else {
    if (vin) std::cout << text_vin(*vin, colour_wanted());
    for (const Read& r : read) std::cout << render_text(*r.tables, console_number(*r.tables, describe_number(*r.tables, r.read)), colour_wanted());
  }
  if (!read.empty() || vin) return done;
  tell("no pack reads '", options.text, "'", unread.empty() ? "; no pack has such a number" : "");
  for (const Read& r : unread) tell("  ", r.tables->family, ", ", r.tables->numbers[r.read.number].name, ": ", failure_words(r.read.text, *r.read.unread));
  return answer_is_no;
}

}  // namespace exworks::cli
