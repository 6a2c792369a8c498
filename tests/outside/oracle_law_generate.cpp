#include <algorithm>
#include <cstdio>
#include <sstream>

#include "oracle_generate.hpp"
#include "oracle_xml.hpp"

/// Laws by chance, and as the file that the engine reads.
namespace exworks::test::oracle {

namespace {

std::string iso_day(const Day& day) {
  char text[8];
  std::snprintf(text, sizeof text, "-%02d", day.day);
  return iso(day.month) + text;
}

int last_day(int month) {
  const int lengths[] = {31, (1950 + month / 12) % 4 == 0 ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return lengths[month % 12];
}

Law random_law(const SmallPack& pack, Dice& dice) {
  const char* const bases[] = {"first-used", "manufactured", "manufactured", "model-year"};
  Law out;
  out.country = pack.markets[dice.below(pack.markets.size())].country;
  out.classes = {pack.classes[pack.variants[dice.below(pack.variants.size())].body]};
  if (dice.chance(0.3)) out.classes = {"car", "light-goods"};
  out.basis = bases[dice.below(4)];
  out.from = {year_1952 + dice.between(0, 16), 1};
  if (out.basis == "model-year") out.from.month = year_1952 + 12 * dice.between(0, 1);
  if (out.basis == "manufactured" && dice.chance(0.4)) out.from.day = 15;
  if (dice.chance(0.3)) {
    const int last = out.basis == "model-year" ? out.from.month + 11 : out.from.month + dice.between(3, 20);
    out.to = Day{last, last_day(last)};
  }
  return out;
}

/// Did it bind any vehicle with the feature, six months of stock apart?
bool binds(const SmallPack& pack, const Law& law, const Feature& feature) {
  Scope scope;
  for (const Market& market : pack.markets) scope.markets.push_back(market.country == law.country);
  for (const std::string& word : pack.classes)
    scope.bodies.push_back(std::find(law.classes.begin(), law.classes.end(), word) != law.classes.end());
  return any_built(pack, scope, feature.applies, {law.from.month + 1, law.to ? law.to->month - 7 : always.last});
}

}  // namespace

void add_laws(SmallPack& pack, Dice& dice) {
  for (Market& market : pack.markets) market.country = dice.chance(0.6) ? "GB" : "US";
  for (std::size_t b = 0; b < pack.bodies; ++b) pack.classes.push_back(dice.chance(0.5) ? "car" : "light-goods");
  for (std::size_t i = 2 + dice.below(3); i > 0; --i) pack.laws.push_back(random_law(pack, dice));
  for (Feature& feature : pack.features) {
    if (dice.chance(0.3)) continue;
    // Of two features in three nothing else is known in some scope, so that the law has something to say.
    if (!feature.facts.empty() && dice.chance(0.7)) feature.facts.erase(feature.facts.begin());
    for (const std::size_t law : dice.some(pack.laws.size(), 1 + dice.below(2))) {
      if (binds(pack, pack.laws[law], feature)) feature.laws.emplace_back(law, dice.below(feature.values));
    }
  }
  tidy(pack);
}

std::string laws_xml(const SmallPack& pack, const std::string& country) {
  std::ostringstream out;
  out << "<requirements format=\"1\"" << attribute("id", country == "GB" ? "gb" : "us") << attribute("name", country)
      << attribute("country", country) << ">\n"
      << R"(<source id="S" kind="published" title="Order" publisher="Ministry, invented" year="1952"/>)"
      << "\n";
  for (std::size_t i = 0; i < pack.laws.size(); ++i) {
    const Law& law = pack.laws[i];
    if (law.country != country) continue;
    std::string classes;
    for (const std::string& word : law.classes) classes += (classes.empty() ? "" : " ") + word;
    out << "<requirement" << attribute("id", id('L', i)) << attribute("class", classes) << attribute("basis", law.basis)
        << attribute("from", iso_day(law.from)) << (law.to ? attribute("to", iso_day(*law.to)) : "")
        << attribute("strength", "must") << attribute("source", "S") << attribute("certainty", "published")
        << attribute("feature", "lamps") << ">Lamps.</requirement>\n";
  }
  out << "</requirements>\n";
  return out.str();
}

}  // namespace exworks::test::oracle
