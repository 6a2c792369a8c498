#include <sstream>

#include "oracle_xml.hpp"

/// A pack as text: rates, axes, assemblies and what becomes of them.
namespace exworks::test::oracle {

namespace {

template <class Numbers>
std::string row(const Numbers& numbers) {
  std::ostringstream out;
  out.precision(16);  // a third
  for (std::size_t i = 0; i < numbers.size(); ++i) out << (i ? " " : "") << numbers[i];
  return out.str();
}

std::string rates_xml(const PackRates& r) {
  std::string out = "<rates" + attribute("confusion", row(r.confusion)) + attribute("wrong-line", row(r.wrong_line)) +
                    attribute("not-recognised", row(r.not_recognised)) + attribute("taken-for-ours", row(r.taken_for_ours));
  for (const auto& [kind, rate] : r.altered_of) out += attribute(kind, number(rate));
  out += attribute("altered", number(r.altered)) + attribute("replaced", number(r.replaced)) +
         attribute("number-error", row(r.number_error)) + attribute("edge-months", row(r.edge_months)) +
         attribute("wrong-year", number(r.wrong_year)) + attribute("offset-shares", row(r.offset_shares)) + attribute("known", number(r.known)) +
         attribute("foreign", number(r.foreign)) + attribute("later-weight", number(r.later_weight)) +
         attribute("unnamed-outside", number(r.unnamed_outside)) + attribute("outside-other", number(r.outside_other)) +
         attribute("relative", number(r.relative)) + attribute("local", number(r.local)) +
         attribute("alteration-levels", row(r.levels)) + attribute("alteration-shares", row(r.level_shares));
  return out + attribute("source", "S") + "/>\n";
}

void write_markets_and_plants(const SmallPack& pack, std::ostream& out) {
  for (std::size_t i = 0; i < pack.markets.size(); ++i) {
    out << "<market" << attribute("id", id('m', i)) << attribute("name", id('m', i))
        << attribute("share", number(pack.markets[i].share));
    if (!pack.markets[i].country.empty()) out << attribute("country", pack.markets[i].country);
    out << "/>\n";
  }
  for (const ShareRow& row : pack.shares) {
    out << "<share" << attribute("market", id('m', row.market)) << attribute("from", iso(row.months.first))
        << attribute("to", iso(row.months.last)) << attribute("share", number(row.share)) << "/>\n";
  }
  for (std::size_t i = 0; i < pack.plants.size(); ++i) {
    const Plant& plant = pack.plants[i];
    out << "<plant" << attribute("id", id('p', i)) << attribute("name", id('p', i)) << attribute("share", number(plant.share))
        << attribute("markets", ids('m', plant.markets));
    if (plant.at_work) out << attribute("from", iso(plant.at_work->first)) << attribute("to", iso(plant.at_work->last));
    out << "/>\n";
  }
}

void write_variants(const SmallPack& pack, std::ostream& out) {
  for (std::size_t i = 0; i < pack.generations; ++i)
    out << "<generation" << attribute("id", id('g', i)) << attribute("name", id('g', i)) << "/>\n";
  for (std::size_t i = 0; i < pack.bodies; ++i)
    out << "<body" << attribute("id", id('b', i)) << attribute("name", id('b', i))
        << (pack.classes.empty() ? "" : attribute("class", pack.classes[i])) << "/>\n";
  for (std::size_t i = 0; i < pack.variants.size(); ++i) {
    const Variant& v = pack.variants[i];
    out << "<variant" << attribute("id", id('v', i)) << attribute("name", id('v', i))
        << attribute("generation", id('g', v.generation)) << attribute("body", id('b', v.body))
        << attribute("markets", ids('m', v.markets)) << attribute("plants", ids('p', v.plants))
        << attribute("from", edge({v.built.first, v.built.first + v.doubt}))
        << attribute("to", edge({v.built.last - v.doubt_end, v.built.last}));
    if (v.units > 0) out << attribute("units", number(v.units));
    out << attribute("source", "S") << "/>\n";
  }
  for (const Volume& v : pack.volumes) {
    out << "<volume" << scope(v.scope) << attribute("from", iso(v.months.first)) << attribute("to", iso(v.months.last))
        << attribute("units", number(v.units)) << attribute("source", "S") << "/>\n";
  }
}

void write_assemblies(const SmallPack& pack, std::ostream& out) {
  for (std::size_t a = 0; a < pack.assemblies.size(); ++a) {
    out << "<assembly" << attribute("id", id('a', a)) << attribute("name", id('a', a));
    if (pack.assemblies[a].replaced) out << attribute("replaced", number(*pack.assemblies[a].replaced));
    out << ">\n";
    for (const Interchange& row : pack.assemblies[a].rows) {
      out << "  <interchange" << members("variants", 'v', row.variants) << members("donors", 'v', row.donors)
          << attribute("source", "S") << "/>\n";
    }
    out << "</assembly>\n";
  }
  for (std::size_t k = 0; k < pack.outsides.size(); ++k) {
    const Outside& o = pack.outsides[k];
    out << "<later" << attribute("id", id('k', k)) << attribute("name", id('k', k)) << attribute("assembly", id('a', o.assembly))
        << scope(o.scope) << edges(o.from, {}, false) << attribute("share", number(o.share)) << attribute("source", "S") << ">\n";
    for (const auto& [f, value] : o.sets)
      out << "  <sets" << attribute("feature", id('f', f)) << attribute("value", value_id(pack.features[f], value)) << "/>\n";
    out << "  As it looks.\n</later>\n";
  }
}

}  // namespace

std::string pack_xml(const SmallPack& pack) {
  std::ostringstream out;
  out << R"(<pack format="2" id="trial" name="Trial" version="1" status="invented">)"
      << "\n"
      << R"(<source id="S" kind="published" title="List" publisher="Works, invented" year="1960"/>)"
      << R"(<source id="S2" kind="published" title="Book" publisher="Press, invented" year="1970"/>)"
      << R"(<source id="C" kind="common-practice" title="common practice, no source"/>)"
      << R"(<source id="memory" kind="memory" title="from memory"/>)"
      << R"(<place id="front" name="Front"/>)"
      << "\n"
      << rates_xml(pack.rates);
  write_markets_and_plants(pack, out);
  write_variants(pack, out);
  write_assemblies(pack, out);
  for (std::size_t f = 0; f < pack.features.size(); ++f) out << feature_xml(pack, f);
  for (std::size_t j = 0; j < pack.conversions.size(); ++j) out << conversion_xml(pack, j);
  out << numbers_xml(pack) << "</pack>\n";
  return out.str();
}

}  // namespace exworks::test::oracle
