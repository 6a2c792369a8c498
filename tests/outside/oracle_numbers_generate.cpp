#include <algorithm>
#include <cctype>
#include <map>

#include "oracle.hpp"
#include "oracle_generate.hpp"

/// Numbers by chance: forms, codes and ranges, changeovers that go by them, and how people write them.
namespace exworks::test::oracle {

namespace {

Scope narrow_scope(const SmallPack& pack, Dice& dice) {
  Scope out;
  switch (dice.below(3)) {
    case 0:
      out.variants = dice.members(pack.variants.size());
      break;
    case 1:
      out.markets = dice.members(pack.markets.size());
      break;
    default:
      out.bodies = dice.members(pack.bodies);
  }
  return any_built(pack, out) ? out : Scope{};
}

/// Codes that are easily mistaken for one another and for digits, scoped or not, and perhaps one that is left out.
Part code_part(const SmallPack& pack, Dice& dice, bool sets) {
  static const char* const words[] = {"A", "O", "I", "AB", "S", "IO", "5", "0A", "10", "B"};
  Part out;
  for (const std::size_t i : dice.some(10, 2 + dice.below(3))) {
    Code code{words[i], {}, {}, {}};
    if (dice.chance(0.2)) code.also.push_back(dice.chance(0.5) ? "8" : "25");
    if (dice.chance(0.2)) code.also.push_back("Q");
    out.codes.push_back(code);
  }
  if (dice.chance(0.45)) out.codes.push_back({"", {}, {}, {}});
  for (Code& code : out.codes) {
    if (dice.chance(0.45)) code.scope = narrow_scope(pack, dice);
    if (!dice.chance(sets ? 0.6 : 0.15)) continue;
    const std::size_t feature = dice.below(pack.features.size());
    code.sets = {feature, dice.below(pack.features[feature].values + 1)};
  }
  return out;
}

Form random_form(const SmallPack& pack, Dice& dice, bool sets) {
  Form out;
  if (dice.chance(0.3)) out.scope = narrow_scope(pack, dice);
  if (dice.chance(0.4)) out.from = Window{year_1952 + dice.between(0, 6), year_1952 + dice.between(6, 12)};
  if (dice.chance(0.4)) out.to = Window{year_1952 + dice.between(12, 16), year_1952 + dice.between(16, 24)};
  if (dice.chance(0.7)) out.parts.push_back(code_part(pack, dice, sets));
  if (dice.chance(0.3)) out.parts.push_back({{}, dice.chance(0.5) ? "/N" : "XI", 0, 0});
  if (dice.chance(0.25)) out.parts.push_back(code_part(pack, dice, sets));
  const int least = dice.chance(0.5) ? 1 : dice.between(2, 4);
  if (dice.chance(0.9) || out.parts.empty())
    out.parts.push_back({{}, "", least, dice.chance(0.6) ? 6 : std::max(least, dice.between(1, 5))});
  if (dice.chance(0.2)) out.parts.push_back(code_part(pack, dice, sets));
  return out;
}

/// Blocks of serials in turn, some with a gap before them, or that begin with the last serial of the one before.
void add_ranges(const SmallPack& pack, Dice& dice, Number& out) {
  Serial next = dice.between(1, 600);
  int month = year_1952 + dice.between(0, 4);
  for (std::size_t i = dice.below(5); i > 0; --i) {
    Range range;
    range.first = next;
    range.last = next + dice.between(3, dice.chance(0.5) ? 40 : 4000);
    range.from = Window{month, month};
    const int last = month + dice.between(0, 9);
    range.to = Window{last, last};
    if (dice.chance(0.2)) range.from.last = std::min(last, month + 2);
    if (dice.chance(0.2)) range.to.last = last + dice.between(1, 3);
    range.spread = dice.between(0, 4);
    if (dice.chance(0.5)) range.scope = narrow_scope(pack, dice);
    if (out.forms.size() > 1 && dice.chance(0.4)) range.forms = dice.some(out.forms.size(), 1 + dice.below(out.forms.size()));
    out.ranges.push_back(range);
    next = range.last + (dice.chance(0.3) ? 0 : dice.chance(0.5) ? 1 : dice.between(2, 300));
    month = dice.chance(0.3) ? range.from.first : last + dice.between(0, 2);
  }
}

Number random_number(const SmallPack& pack, Dice& dice, std::optional<std::size_t> assembly) {
  Number out;
  out.assembly = assembly;
  for (std::size_t i = 1 + dice.below(3); i > 0; --i) out.forms.push_back(random_form(pack, dice, assembly.has_value()));
  add_ranges(pack, dice, out);
  return out;
}

/// One number for each changeover of a feature; now and then only one of the facts at it names the number.
void tie_to_number(Feature& feature, Dice& dice, Serial highest) {
  std::map<int, Serial> first_after;
  for (const Fact& fact : feature.facts) {
    for (const auto& edge : {fact.from, fact.to}) {
      if (edge) first_after.emplace(edge->first, 1 + static_cast<Serial>(dice.below(static_cast<std::size_t>(highest))));
    }
  }
  for (Fact& fact : feature.facts) {
    if (fact.from && dice.chance(0.9)) fact.from_number = first_after[fact.from->first];
    if (fact.to && dice.chance(0.9)) fact.to_number = first_after[fact.to->first];
  }
}

/// What a hurried writer makes of it.
std::string written(const std::string& due, Dice& dice) {
  std::string out;
  for (char c : due) {
    if (dice.chance(0.06)) out += " -./"[dice.below(4)];
    if (dice.chance(0.1)) c = c == 'O' ? '0' : c == '0' ? 'O' : c == 'I' ? '1' : c == '1' ? 'I' : c;
    if (dice.chance(0.1)) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    out += c;
  }
  return out;
}

std::string random_serial(const Number& number, const Part& part, const std::vector<Serial>& edges, Dice& dice) {
  Serial serial = dice.between(1, 5000);
  if (!edges.empty() && dice.chance(0.3)) {
    serial = edges[dice.below(edges.size())];
  } else if (!number.ranges.empty() && dice.chance(0.9)) {
    const Range& range = number.ranges[dice.below(number.ranges.size())];
    serial = dice.chance(0.15)
                 ? range.last
                 : range.first + static_cast<Serial>(dice.below(static_cast<std::size_t>(range.last - range.first + 1)));
  }
  std::string out = std::to_string(serial);
  if (dice.chance(0.2)) out.insert(0, 1, '0');
  const auto least = static_cast<std::size_t>(part.min_digits), most = static_cast<std::size_t>(part.max_digits);
  if (out.size() < least) out.insert(0, least - out.size(), '0');
  return out.size() > most ? out.substr(out.size() - most) : out;
}

std::string random_text(const Number& number, const std::vector<Serial>& edges, Dice& dice) {
  const Form& form = number.forms[dice.below(number.forms.size())];
  std::string out;
  for (const Part& part : form.parts) {
    if (!part.codes.empty()) {
      const Code& code = part.codes[dice.below(part.codes.size())];
      out += code.also.empty() || dice.chance(0.7) ? code.text : code.also[0];
    }
    out += part.literal;
    if (part.max_digits > 0) out += random_serial(number, part, edges, dice);
  }
  return written(out, dice);
}

}  // namespace

void add_numbers(SmallPack& pack, Dice& dice) {
  pack.numbers.push_back(random_number(pack, dice, std::nullopt));
  for (std::size_t a = 0; a < pack.assemblies.size(); ++a) {
    const bool used = std::any_of(pack.features.begin(), pack.features.end(), [&](const Feature& f) { return f.assembly == a; });
    if (used && dice.chance(0.6)) pack.numbers.push_back(random_number(pack, dice, a));
  }
  const Number& identity = pack.numbers.front();
  const Serial highest = identity.ranges.empty() ? 5000 : identity.ranges.back().last;
  for (Feature& feature : pack.features) {
    if (dice.chance(0.5)) tie_to_number(feature, dice, highest);
  }
  if (dice.chance(0.5)) pack.rates.number_error = {dice.share(0.02, 0.1), dice.share(0.1, 0.2), dice.share(0.2, 0.4)};
}

void add_number_texts(const SmallPack& pack, Dice& dice, Visit& visit) {
  const char* const hows[] = {"read", "seen", "photo", "told"};
  const char* const sures[] = {"sure", "sure", "probable", "guess"};
  constexpr std::size_t most_readings = 16;
  std::vector<Serial> edges;  // the first serials after a change, which a slip of one would tell
  for (const Feature& feature : pack.features) {
    for (const Fact& fact : feature.facts) {
      for (const auto& edge : {fact.from_number, fact.to_number}) {
        if (edge) edges.push_back(*edge);
      }
    }
  }
  for (std::size_t n = 0; n < pack.numbers.size(); ++n) {
    if (!dice.chance(n == 0 ? 0.9 : 0.7)) continue;
    const char* const states[] = {"as-found", "as-found", "restamped", "replaced-plate", "copied"};
    const NumberText text{n, random_text(pack.numbers[n], edges, dice), hows[dice.below(4)], sures[dice.below(4)], states[dice.below(5)]};
    const std::size_t readings = readings_of(pack.numbers[n], text.text).size();
    if (!text.text.empty() && readings > 0 && readings <= most_readings) visit.numbers.push_back(text);
  }
  if (!visit.numbers.empty() && visit.numbers.front().number == 0 && dice.chance(0.3)) visit.given_own = dice.chance(0.5);
  if (!Model(pack, visit).possible()) visit.given_own.reset();
}

}  // namespace exworks::test::oracle
