#include "oracle_xml.hpp"

#include <cstdio>
#include <sstream>

/// The structs as text that the engine reads (rules/FORMAT.md).
namespace exworks::test::oracle {

std::string number(double x) {
  std::ostringstream out;
  out.precision(12);  // shares have two decimals: the reader gets the same number back
  out << x;
  return out.str();
}

std::string id(char letter, std::size_t i) {
  return letter + std::to_string(i);
}

std::string value_id(const Feature& feature, std::size_t value) {
  return value == feature.values ? "other" : id('w', value);
}

std::string iso(int month) {
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02d", 1950 + month / 12, month % 12 + 1);
  return text;
}

/// A month, a year, "about" a month, a season, else `[a..b]`.
std::string edge(const Window& window) {
  const int months = window.last - window.first + 1;
  const std::string year = std::to_string(1950 + window.first / 12);
  if (months == 1) return iso(window.first);
  if (months == 12 && window.first % 12 == 0) return year;
  if (months == 5) return iso(window.first + 2) + "~";
  if (months == 3 && window.first % 3 == 2) return year + "-" + std::to_string(21 + window.first % 12 / 3);
  return "[" + iso(window.first) + ".." + iso(window.last) + "]";
}

std::string attribute(const std::string& name, const std::string& value) {
  return " " + name + "=\"" + value + "\"";
}

namespace {

std::string ids(char letter, const std::vector<bool>& members) {
  std::string out;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (members[i]) out += (out.empty() ? "" : " ") + id(letter, i);
  }
  return out;
}

/// The members, or what is left after taking the others away (where there are fewer of those).
std::string members(const std::string& name, char letter, const std::vector<bool>& axis) {
  if (axis.empty()) return "";
  std::string away;
  std::size_t outside = 0;
  for (std::size_t i = 0; i < axis.size(); ++i) {
    if (axis[i]) continue;
    away += (away.empty() ? "!" : " !") + id(letter, i);
    ++outside;
  }
  const bool shorter = outside > 0 && outside * 2 < axis.size();
  return attribute(name, shorter ? away : ids(letter, axis));
}

}  // namespace

std::string scope(const Scope& s) {
  return members("generations", 'g', s.generations) + members("variants", 'v', s.variants) + members("bodies", 'b', s.bodies) +
         members("markets", 'm', s.markets) + members("plants", 'p', s.plants);
}

std::string edges(const std::optional<Window>& from, const std::optional<Window>& to, bool dots) {
  std::string out;
  if (from || dots) out += attribute("from", from ? edge(*from) : "..");
  if (to || dots) out += attribute("to", to ? edge(*to) : "..");
  return out;
}

namespace {

void write_axes(const SmallPack& pack, std::ostream& out) {
  for (std::size_t i = 0; i < pack.markets.size(); ++i) {
    out << "<market" << attribute("id", id('m', i)) << attribute("name", id('m', i))
        << attribute("share", number(pack.markets[i].share));
    if (!pack.markets[i].country.empty()) out << attribute("country", pack.markets[i].country);
    out << "/>\n";
  }
  for (std::size_t i = 0; i < pack.plants.size(); ++i) {
    const Plant& plant = pack.plants[i];
    out << "<plant" << attribute("id", id('p', i)) << attribute("name", id('p', i)) << attribute("share", number(plant.share))
        << attribute("markets", ids('m', plant.markets));
    if (plant.at_work) out << attribute("from", iso(plant.at_work->first)) << attribute("to", iso(plant.at_work->last));
    out << "/>\n";
  }
  for (std::size_t i = 0; i < pack.generations; ++i) {
    out << "<generation" << attribute("id", id('g', i)) << attribute("name", id('g', i)) << "/>\n";
  }
  for (std::size_t i = 0; i < pack.bodies; ++i)
    out << "<body" << attribute("id", id('b', i)) << attribute("name", id('b', i))
        << (pack.classes.empty() ? "" : attribute("class", pack.classes[i])) << "/>\n";
  for (std::size_t i = 0; i < pack.variants.size(); ++i) {
    const Variant& v = pack.variants[i];
    out << "<variant" << attribute("id", id('v', i)) << attribute("name", id('v', i))
        << attribute("generation", id('g', v.generation)) << attribute("body", id('b', v.body))
        << attribute("markets", ids('m', v.markets)) << attribute("plants", ids('p', v.plants))
        << attribute("from", edge({v.built.first, v.built.first + v.doubt})) << attribute("to", edge({v.built.last - v.doubt_end, v.built.last}));
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
    for (const auto& [f, value] : o.sets) {
      out << "  <sets" << attribute("feature", id('f', f)) << attribute("value", value_id(pack.features[f], value)) << "/>\n";
    }
    out << "  As it looks.\n</later>\n";
  }
}

void write_feature(const SmallPack& pack, std::size_t f, std::ostream& out) {
  const Feature& feature = pack.features[f];
  out << "<feature" << attribute("id", id('f', f)) << attribute("name", id('f', f)) << attribute("place", "front")
      << attribute("weight", std::to_string(feature.weight)) << scope(feature.applies);
  if (feature.assembly) out << attribute("assembly", id('a', *feature.assembly));
  if (feature.altered) out << attribute("altered", number(*feature.altered));
  if (feature.elsewhere) out << attribute("elsewhere", value_id(feature, *feature.elsewhere));
  if (feature.slip) out << attribute("slip", number(*feature.slip));
  out << ">\n  <ask>Which?</ask>\n";
  for (std::size_t v = 0; v < feature.values; ++v) {
    std::string alike;
    for (const auto& [value, other] : feature.looks_like) {
      if (value == v) alike += (alike.empty() ? "" : " ") + value_id(feature, other);
    }
    out << "  <value" << attribute("id", value_id(feature, v)) << attribute("name", value_id(feature, v))
        << (alike.empty() ? "" : attribute("looks-like", alike)) << "/>\n";
  }
  for (const Fact& fact : feature.facts) {
    out << "  <fact" << attribute("value", value_id(feature, fact.value)) << scope(fact.scope)
        << edges(fact.from, fact.to, fact.dots);
    if (fact.from_number) out << attribute("from-number", std::to_string(*fact.from_number));
    if (fact.to_number) out << attribute("to-number", std::to_string(*fact.to_number));
    if (fact.fitted != "standard") out << attribute("fitted", fact.fitted);
    if (fact.share) out << attribute("share", number(*fact.share));
    out << attribute("source", "S") << "/>\n";
  }
  for (const auto& [law, value] : feature.laws)
    out << "  <legal" << attribute("requirement", id('L', law)) << attribute("value", value_id(feature, value)) << "/>\n";
  for (std::size_t c = 0; c < feature.changes.size(); ++c) {
    const Change& change = feature.changes[c];
    const std::string name = id('f', f) + "-" + id('c', c);
    out << "  <later" << attribute("id", name) << attribute("value", value_id(feature, change.value)) << attribute("name", name)
        << scope(change.scope) << edges(change.from, {}, false) << attribute("share", number(change.share))
        << attribute("source", "S") << ">As it looks.</later>\n";
  }
  out << "</feature>\n";
}

std::string observed(const SmallPack& pack, const Look& look) {
  return "<observed" + attribute("feature", id('f', look.feature)) +
         attribute("value", value_id(pack.features[look.feature], look.value)) + attribute("how", look.how) +
         attribute("sure", look.sure) + "/>";
}

}  // namespace

std::string pack_xml(const SmallPack& pack) {
  const PackRates& r = pack.rates;
  std::ostringstream out;
  out << R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">)"
      << "\n"
      << R"(<source id="S" kind="published" title="List" publisher="Works, invented" year="1960"/>)"
      << R"(<place id="front" name="Front"/>)"
      << "\n"
      << "<rates" << attribute("sure", number(r.sure)) << attribute("probable", number(r.probable))
      << attribute("guess", number(r.guess)) << attribute("look-alike", number(r.look_alike))
      << attribute("altered", number(r.altered)) << attribute("unlisted", number(r.unlisted))
      << attribute("replaced", number(r.replaced))
      << attribute("number-error", number(r.number_error)) << attribute("source", "S") << "/>\n";
  write_axes(pack, out);
  write_assemblies(pack, out);
  for (std::size_t f = 0; f < pack.features.size(); ++f) write_feature(pack, f, out);
  out << numbers_xml(pack) << "</pack>\n";
  return out.str();
}

std::string visit_xml(const SmallPack& pack, const Visit& visit, const std::string& more) {
  std::string out = R"(<inspection format="1" family="trial")";
  if (visit.month) out += attribute("date", iso(*visit.month) + "-15");
  out += ">\n";
  for (const Look& look : visit.looks) out += observed(pack, look) + "\n";
  return out + number_texts_xml(visit) + papers_xml(visit) + more + "</inspection>\n";
}

}  // namespace exworks::test::oracle
