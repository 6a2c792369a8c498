#include <array>

#include "base/text.hpp"
#include "numbers/date_codes.hpp"
#include "numbers/grammar.hpp"

namespace exworks {

BeltAge judge_belt_label(std::optional<int> label_year, int built) {
  if (!label_year) return BeltAge::cannot_tell;
  if (*label_year > built + 1) return BeltAge::replaced;
  // The year after the build is too near to tell, and a label over a year older is old stock or from another vehicle.
  return *label_year == built || *label_year == built - 1 ? BeltAge::may_be_original : BeltAge::cannot_tell;
}

CodeReading read_belt_label(int label_year) {
  CodeReading r;
  r.kind = "seat-belt label";
  r.text = std::to_string(label_year);
  r.source = "NHTSA interpretation nht91-3.13: paragraph S4.1(j) of Standard 209";
  r.candidates.push_back({day_of(label_year, 1, 1), day_of(label_year, 12, 31), "made in " + r.text, {}});
  r.remarks.push_back("The US label shows the year of make, the model, and the maker, distributor or importer. No label says nothing.");
  if (label_year < 1967) {
    r.remarks.push_back("The standard that asks for the label is in force from 1 March 1967; read the year again.");
  }
  return r;
}

CodeReading read_brake_fluid(std::string_view colour) {
  CodeReading r;
  r.kind = "brake fluid colour";
  r.text = fold_space(colour);
  r.certainty = CodeCertainty::no_rule;
  r.source = "NHTSA interpretations of Standard 116";
  r.remarks.push_back("The colour gives no date and does not prove the type: it can change in use. Ask which fluid was put in, or read the bottle.");
  const std::string c = upper(r.text);
  if (c == "VIOLET" || c == "PURPLE") {
    r.remarks.push_back("Violet is the colour of silicone fluid (DOT 5; one source), which does not mix with glycol fluid.");
  } else if (c == "COLOURLESS" || c == "AMBER" || c == "CLEAR") {
    r.remarks.push_back("DOT 3 and DOT 4 fluid made from 1 September 1978 on is colourless to amber.");
  } else {
    r.remarks.push_back("DOT 3 and DOT 4 fluid made from 1 September 1978 on is colourless to amber when new, so this fluid is older, of another type, or changed in use.");
  }
  return r;
}

CodeReading read_sealed_beam(std::string_view number) {
  struct Lamp {
    std::string_view number;
    int year;
    const char* words;
    bool about;
  };
  static constexpr std::array<Lamp, 5> lamps{{{"4030", 1940, "7 in, 6 V, 40/30 W", false},
                                              {"5040", 1950, "7 in, 50/40 W", true},
                                              {"5400", 1956, "7 in, 12 V, three aiming lugs", false},
                                              {"6006", 1958, "7 in, 6 V, type 2", false},
                                              {"6012", 1958, "7 in, 12 V, type 2", false}}};
  CodeReading r;
  r.kind = "US sealed-beam number";
  r.text = strip(number).text;
  r.source = "a lamp specialist's post, forabodiesonly.com";
  r.certainty = CodeCertainty::copy;
  r.earliest_only = true;
  for (const Lamp& l : lamps) {
    if (r.text != l.number) continue;
    const std::string year = std::to_string(l.year);
    const int first = l.about ? l.year - 1 : l.year;  // "about": a year either side, as rules/FORMAT.md takes a doubtful year
    r.candidates.push_back({day_of(first, 1, 1), day_of(l.about ? l.year + 1 : l.year, 12, 31), std::string(l.words) + ", appeared " + (l.about ? "about " : "in ") + year, {}});
    r.remarks.push_back("Only an earliest date: lamps are replaced, and no last year is published.");
    return r;
  }
  r.faults.push_back({"no date is held for the lamp number '" + std::string(number) + "'", "known are 4030, 5040, 5400, 6006 and 6012"});
  return r;
}

}  // namespace exworks
