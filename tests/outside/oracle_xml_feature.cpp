#include <sstream>

#include "oracle_xml.hpp"

/// Features as text.
namespace exworks::test::oracle {

namespace {

std::string opening(const Feature& feature, std::size_t f) {
  std::string out = "<feature" + attribute("id", id('f', f)) + attribute("name", id('f', f)) + attribute("place", "front") +
                    attribute("weight", std::to_string(feature.weight)) + scope(feature.applies);
  if (feature.assembly) out += attribute("assembly", id('a', *feature.assembly));
  if (!feature.kind.empty()) out += attribute("class", feature.kind);
  if (feature.altered) out += attribute("altered", number(*feature.altered));
  if (feature.foreign) out += attribute("foreign", number(*feature.foreign));
  if (feature.elsewhere) out += attribute("elsewhere", value_id(feature, *feature.elsewhere));
  if (!feature.measures.empty()) out += attribute("method", "measure") + attribute("unit", "mm");
  return out + ">\n  <ask>Which?</ask>\n";
}

std::string values(const Feature& feature) {
  std::string out;
  for (std::size_t v = 0; v < feature.values; ++v) {
    std::vector<std::size_t> alike;
    for (const auto& [value, other] : feature.looks_like) {
      if (value == v) alike.push_back(other);
    }
    out += "  <value" + attribute("id", value_id(feature, v)) + attribute("name", value_id(feature, v));
    if (!alike.empty()) out += attribute("looks-like", value_ids(feature, alike));
    if (!feature.measures.empty())
      out += attribute("measure", number(feature.measures[v].at)) + attribute("tolerance", number(feature.measures[v].tolerance));
    out += "/>\n";
  }
  for (std::size_t g = 0; g < feature.groups.size(); ++g)
    out += "  <values" + attribute("id", id('h', g)) + attribute("of", value_ids(feature, feature.groups[g])) +
           attribute("name", "one of these") + "/>\n";
  for (const Alike& pair : feature.alike)
    out += "  <alike" + attribute("values", value_ids(feature, {pair.a, pair.b})) + attribute("rate", number(pair.rate)) + "/>\n";
  return out;
}

std::string fact_xml(const Feature& feature, const Fact& fact) {
  std::string out =
      "  <fact" + attribute("value", value_id(feature, fact.value)) + scope(fact.scope) + edges(fact.from, fact.to, fact.dots);
  if (fact.from_number) out += attribute("from-number", std::to_string(*fact.from_number));
  if (fact.to_number) out += attribute("to-number", std::to_string(*fact.to_number));
  if (fact.fitted != "standard") out += attribute("fitted", fact.fitted);
  if (fact.share) out += attribute("share", number(*fact.share));
  const char* const sources[] = {"S S2", "S", "C memory", "memory"};
  return out + attribute("source", sources[fact.backing]) + "/>\n";
}

}  // namespace

std::string feature_xml(const SmallPack& pack, std::size_t f) {
  const Feature& feature = pack.features[f];
  std::string out = opening(feature, f) + values(feature);
  for (const Fact& fact : feature.facts) out += fact_xml(feature, fact);
  for (const auto& [law, value] : feature.laws)
    out += "  <legal" + attribute("requirement", id('L', law)) + attribute("value", value_id(feature, value)) + "/>\n";
  for (std::size_t c = 0; c < feature.changes.size(); ++c) {
    const Change& change = feature.changes[c];
    const std::string name = id('f', f) + "-" + id('c', c);
    out += "  <later" + attribute("id", name) + attribute("value", value_id(feature, change.value)) + attribute("name", name) +
           scope(change.scope) + edges(change.from, {}, false) + attribute("share", number(change.share)) +
           attribute("source", "S") + ">As it looks.</later>\n";
  }
  return out + "</feature>\n";
}

std::string conversion_xml(const SmallPack& pack, std::size_t j) {
  const Conversion& conversion = pack.conversions[j];
  std::string out = "<conversion" + attribute("id", id('j', j)) + attribute("name", id('j', j)) +
                    attribute("share", number(conversion.share)) + scope(conversion.scope) + edges(conversion.from, {}, false) +
                    attribute("source", "S") + ">\n";
  for (const Sets& sets : conversion.sets) {
    out += "  <sets" + attribute("feature", id('f', sets.feature)) +
           attribute("value", value_id(pack.features[sets.feature], sets.value));
    if (sets.surely != 0.9) out += attribute("surely", number(sets.surely));
    out += "/>\n";
  }
  return out + "  As it looks.\n</conversion>\n";
}

}  // namespace exworks::test::oracle
