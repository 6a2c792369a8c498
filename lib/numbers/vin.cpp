#include "numbers/vin.hpp"


#include "numbers/grammar.hpp"

namespace exworks {

namespace {

constexpr std::size_t vin_length = 17;

// Vehicles made for the United States from this month on (model year 1981), and for Australia from July 1988.
const Month us_start = Month::of(1980, 9);
const Month au_start = Month::of(1988, 7);
// 73 FR 23367: the amended scheme is compulsory from 30 April 2009, and from 27 October 2008 with A or B in position 10.
const Month amended_may_begin = Month::of(2008, 10);
const Month amended_binds = Month::of(2009, 5);

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return c >= 'A' && c <= 'Z'; }

std::string since() {
  return "The 17-character number is law for vehicles made for the United States from 1 September 1980 (model year 1981) and "
         "for Australia from 1 July 1988; elsewhere the dates differ, and makers began as they chose.";
}

Binding standard_binds(const VinQuestion& q) {
  if (q.made_for.empty()) return Binding::cannot_tell;
  if (q.made_for != "US" && q.made_for != "AU") return Binding::cannot_tell;
  if (!q.made) return Binding::cannot_tell;
  return *q.made >= (q.made_for == "US" ? us_start : au_start) ? Binding::binds : Binding::does_not_bind;
}

/// 49 CFR 565 binds by the market a vehicle is made for, wherever the works stand.
Binding us_rule_binds(const VinQuestion& q) {
  if (q.made && *q.made < us_start) return Binding::does_not_bind;
  if (q.made_for == "US") return Binding::binds;
  // Canada: the year letters are called North American, but no Canadian rule was read.
  return q.made_for.empty() || q.made_for == "CA" ? Binding::cannot_tell : Binding::does_not_bind;
}

void say_standard(VinReading& r, const VinQuestion& q) {
  r.standard = standard_binds(q);
  const bool whole = r.text.size() == vin_length;
  const std::string length = std::to_string(r.text.size()) + (r.text.size() == 1 ? " character" : " characters");
  if (whole) {
    r.standard_words = r.standard == Binding::does_not_bind
                           ? "The number has 17 characters although the vehicle was made before the rule bound it: makers could begin early, "
                             "or the number was given later. " + since()
                           : "The number has 17 characters, as ISO 3779 lays down. " + since();
    return;
  }
  if (r.standard == Binding::binds) {
    r.standard_words = "The number has " + length + "; a vehicle made for that market at that date has 17. " + since();
    r.faults.push_back({0, "the number has " + length + " where 17 are due",
                        "read it again, at the left windscreen pillar and on the maker's plate; an engine or body number is another thing. "
                        "Vehicles sold to the armed forces are not bound"});
    return;
  }
  r.standard_words = "The number has " + length + ", so it is no 17-character number and that standard does not bind it. Older numbers "
                     "follow each maker's own scheme. " + since() +
                     (r.standard == Binding::cannot_tell ? " If the vehicle is newer than that, read the number again: a character was missed or added." : "");
}

void find_bad_characters(VinReading& r) {
  for (std::size_t i = 0; i < r.text.size(); ++i) {
    const char c = r.text[i];
    if (vin_value(c)) continue;
    const int position = static_cast<int>(i) + 1;
    const std::string what = std::string("character ") + std::to_string(position) + " is '" + c + "'";
    if (c == 'I' || c == 'O' || c == 'Q') {
      r.faults.push_back({position, what + "; the letters I, O and Q are never used", std::string("read it again: it may be the digit ") + (c == 'I' ? "1" : "0")});
    } else {
      r.faults.push_back({position, what + ", neither a letter nor a digit", "read it again; a number has only capital letters and digits"});
    }
  }
}

std::string maker_words() {
  return "world code of the maker (ISO 3780). A maker of fewer than 500 vehicles a year is named by these three together with positions 12 to 14 "
         "(United States rule)";
}

void take_apart(VinReading& r) {
  const auto add = [&](std::string name, int first, int last, std::string means) {
    const auto from = static_cast<std::size_t>(first) - 1;
    r.parts.push_back({std::move(name), r.text.substr(from, static_cast<std::size_t>(last - first) + 1), std::move(means), first, last});
  };
  add("maker (WMI)", 1, 3, maker_words());
  add("description (VDS)", 4, 9, "the maker's description of the vehicle; in the United States 4 to 8 describe and 9 is the check digit");
  add("check digit", 9, 9, r.check_binds == Binding::does_not_bind ? "no check digit is asked for here; some makers write Z" : "check digit, where the United States rule binds");
  add("indicator (VIS)", 10, 17, "which single vehicle it is");
  add("model year", 10, 10, "model-year code, where the United States rule binds; in Europe often not a year");
  add("plant", 11, 11, "assembly plant, in the maker's own code (United States rule)");
  add("sequence", 12, 17, "running number (United States rule)");
}

void check_digit(VinReading& r) {
  const auto sum = vin_check_sum(r.text);
  if (!sum) return;
  r.check_sum = *sum;
  const int remainder = *sum % 11;
  r.check_due = remainder == 10 ? 'X' : static_cast<char>('0' + remainder);
  const char written = r.text[8];
  r.check = written == r.check_due ? CheckDigit::matches : CheckDigit::differs;
  const std::string due = std::string("'") + r.check_due + "'";
  const std::string binding = r.check_binds == Binding::binds ? "The check digit is law for vehicles made for the United States from model year 1981. "
                              : r.check_binds == Binding::does_not_bind
                                  ? "No check digit is asked of this vehicle: it binds those made for the United States from model year 1981. "
                                  : "The check digit binds only vehicles made for the United States from model year 1981; whether this is one isn't known. ";
  if (r.check == CheckDigit::matches) {
    r.check_words = binding + "Position 9 is " + due + ", as computed. That is weak support: about one random number in eleven passes.";
    return;
  }
  r.check_words = binding + "Position 9 is '" + written + "' where " + due + " is computed" +
                  (r.check_binds == Binding::binds ? "." : "; that is no fault unless the rule binds.");
  if (r.check_binds == Binding::binds) {
    r.faults.push_back({9, std::string("the check digit is '") + written + "' where " + due + " is due",
                        "read the number again, character by character (5 and S, 8 and B, 0 and D); if it stays so, ask the maker or a register"});
  }
}

void add_year(VinReading& r, int year, const std::string& why) {
  r.model_years.push_back({year, Month::of(year - 1, 8), Month::of(year, 12), why});
}

void model_year(VinReading& r, const VinQuestion& q) {
  r.year_binds = r.check_binds;
  const char code = r.text[9];
  const std::string spoken = std::string("'") + code + "' in position 10";
  const std::string limits = r.year_binds == Binding::binds ? "A model year is not the year of build: it begins some months before and spans under two calendar years. "
                             : r.year_binds == Binding::does_not_bind
                                 ? "Position 10 need not be a year here: the year code is a North American rule. "
                                 : "Position 10 is a year only where the North American rule binds. ";
  if (code == '0') {
    add_year(r, 1980, "some makers wrote 0 for 1980, before the 17-character number was law");
    r.year_words = limits + spoken + " is no year code of the rule; some makers wrote it for 1980.";
    return;
  }
  const auto first = vin_first_cycle_year(code);
  if (!first) {
    r.year_words = limits + spoken + " is no year code.";
    if (r.year_binds == Binding::binds) r.faults.push_back({10, spoken + " is no year code; U, Z and 0 are not used there", "read it again: U may be V, Z may be 2"});
    return;
  }
  const std::string second = std::to_string(*first + 30), either = std::to_string(*first) + " or " + second;
  if (r.year_binds == Binding::binds && q.vehicle == VinVehicle::light) {
    const bool digit = is_digit(r.text[6]);
    const std::string rule = std::string("position 7 is a ") + (digit ? "digit: 1980 to 2009" : "letter: 2010 to 2039");
    add_year(r, digit ? *first : *first + 30, rule);
    r.year_words = limits + spoken + " is " + either + "; " + rule + " (cars, multipurpose vehicles and trucks up to 4536 kg).";
    return;
  }
  const std::string both = "the code comes round every 30 years, and the rule of position 7 binds only cars, multipurpose vehicles and trucks up to 4536 kg made for the United States";
  add_year(r, *first, both);
  add_year(r, *first + 30, both);
  r.year_words = limits + spoken + " is " + either + ": " + both + ". Other evidence decides.";
}

/// 49 CFR 565.25: before the 2008 amendment a light vehicle has letters in 4 and 5 and digits in 6 and 7.
void content_rule(VinReading& r, const VinQuestion& q) {
  if (r.check_binds != Binding::binds || q.vehicle != VinVehicle::light) return;
  if (r.text[9] == 'A' || r.text[9] == 'B') {  // from 27 October 2008 these letters may follow the amended scheme
    if (!q.made || *q.made >= amended_may_begin) return;
  }
  if (q.made ? *q.made >= amended_binds - 1 : !is_digit(r.text[6])) return;
  for (const std::size_t i : {3u, 4u, 5u, 6u}) {
    const bool letter_due = i < 5;
    if (letter_due ? is_letter(r.text[i]) : is_digit(r.text[i])) continue;
    const std::string position = std::to_string(i + 1);
    r.faults.push_back({static_cast<int>(i) + 1, "position " + position + " is '" + r.text[i] + "' where a " + (letter_due ? "letter" : "digit") + " is due",
                        "read it again; a light vehicle made for the United States before 30 April 2009 has letters in 4 and 5, digits in 6 and 7"});
  }
}

}  // namespace

std::optional<int> vin_value(char c) {
  if (is_digit(c)) return c - '0';
  static constexpr std::string_view letters = "ABCDEFGHJKLMNPRSTUVWXYZ";
  static constexpr std::string_view values = "12345678123457923456789";
  const auto at = letters.find(c);
  if (at == std::string_view::npos) return std::nullopt;
  return values[at] - '0';
}

std::optional<int> vin_check_sum(std::string_view vin) {
  if (vin.size() != vin_length) return std::nullopt;
  int sum = 0;
  for (std::size_t i = 0; i < vin_length; ++i) {
    const auto value = vin_value(vin[i]);
    if (!value) return std::nullopt;
    sum += *value * vin_weights[i];
  }
  return sum;
}

std::optional<int> vin_first_cycle_year(char code) {
  static constexpr std::string_view codes = "ABCDEFGHJKLMNPRSTVWXY123456789";  // 1980 to 2009
  const auto at = codes.find(code);
  if (at == std::string_view::npos) return std::nullopt;
  return 1980 + static_cast<int>(at);
}

VinReading read_vin(std::string_view written, const VinQuestion& question) {
  VinReading r;
  r.text = strip(written).text;
  r.check_binds = us_rule_binds(question);
  r.year_binds = r.check_binds;
  say_standard(r, question);
  if (r.text.size() != vin_length) {
    r.check_binds = r.year_binds = Binding::does_not_bind;
    r.check_words = "Only a 17-character number has a check digit.";
    r.year_words = "Only a 17-character number has a year code.";
    return r;
  }
  find_bad_characters(r);
  take_apart(r);
  check_digit(r);
  if (r.check == CheckDigit::not_computed) r.check_words = "The check digit can't be computed until the characters named are read again.";
  model_year(r, question);
  content_rule(r, question);
  return r;
}

}  // namespace exworks
