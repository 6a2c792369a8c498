#include "engine/tables/tables.hpp"

namespace exworks {

std::vector<const FormGrammar*> NumberInfo::grammars() const {
  std::vector<const FormGrammar*> out;
  out.reserve(forms.size());
  for (const FormInfo& f : forms) out.push_back(&f.grammar);
  return out;
}

std::string Tables::edition() const {
  std::string out = family + " " + version;
  for (std::size_t i = 0; i < extends.size(); ++i) out += (i == 0 ? " (extends " : ", which extends ") + extends[i].family + " " + extends[i].version;
  return extends.empty() ? out : out + ")";
}

std::string Tables::value_name(FeatureIndex feature, ValueIndex value) const {
  const FeatureInfo& f = features[feature];
  return value < f.values.size() ? f.values[value].name : "none of these";
}

std::string Tables::value_id(FeatureIndex feature, ValueIndex value) const {
  const FeatureInfo& f = features[feature];
  return value < f.values.size() ? f.values[value].id : "other";
}

std::string Tables::values_name(FeatureIndex feature, const std::vector<ValueIndex>& values) const {
  for (const ValueGroup& g : features[feature].groups) {
    if (g.values == values) return g.name;
  }
  std::string out;
  for (ValueIndex v : values) out += (out.empty() ? "" : " or ") + value_name(feature, v);
  return out;
}

std::string Tables::values_id(FeatureIndex feature, const std::vector<ValueIndex>& values) const {
  std::string out;
  for (ValueIndex v : values) out += (out.empty() ? "" : " ") + value_id(feature, v);
  return out;
}

std::string Tables::feature_name(const std::string& id) const {
  const auto at = feature_index.find(id);
  return at == feature_index.end() ? id : features[at->second].name;
}

}  // namespace exworks
