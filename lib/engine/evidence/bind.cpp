#include <algorithm>

#include "base/text.hpp"
#include "engine/evidence/evidence.hpp"
#include "engine/evidence/identity.hpp"
#include "engine/evidence/measure.hpp"
#include "engine/evidence/noting.hpp"

namespace exworks {

namespace {

class Binder {
 public:
  Binder(const Tables& tables, const Inspection& inspection, Diagnostics& diagnostics) : t_(tables), in_(inspection), d_(diagnostics) {}

  Evidence run() {
    if (in_.date && !in_.date->open) e_.inspected = in_.date->last;
    e_.country = in_.country;
    for (std::size_t i = 0; i < in_.observations.size(); ++i) observation(i);
    for (std::size_t i = 0; i < in_.numbers.size(); ++i) number(i);
    claims();
    codes();
    return std::move(e_);
  }

 private:
  std::vector<std::string> feature_names() const {
    std::vector<std::string> names;
    for (const auto& [id, index] : t_.feature_index) names.push_back(id);
    std::sort(names.begin(), names.end());
    return names;
  }

  void observation(std::size_t i) {
    const Observation& o = in_.observations[i];
    const auto at = t_.feature_index.find(o.feature);
    if (at == t_.feature_index.end()) {
      d_.error(o.feature_place, "pack '" + t_.family + "' has no feature '" + o.feature + "'",
               did_you_mean(o.feature, feature_names(), "`exworks pack show " + t_.family + "` lists them"));
      return;
    }
    const FeatureIndex f = at->second;
    for (std::size_t j = 0; j < i; ++j) {
      if (in_.observations[j].feature != o.feature) continue;
      d_.error(o.feature_place, "feature '" + o.feature + "' is observed twice", "keep the better one; the first is at line " + std::to_string(in_.observations[j].place.line));
      return;
    }
    if (o.state) return;
    std::optional<MeasureNoted> measure;
    const std::vector<ValueIndex> open = o.measure ? measured(o, f, measure) : named(o, f);
    if (open.empty()) return;
    Seen seen = look(t_, f, open, trust_in(o.how, o.sure));
    if (o.measure && open.size() > 1) seen.value = nearest(o, f, open);
    seen.observation = i;
    seen.measure = std::move(measure);
    e_.seen.push_back(std::move(seen));
  }

  /// The value, or group of values, that each word names; a mistake is told, and nothing returned.
  std::vector<ValueIndex> values_of(const Observation& o, const std::string& words, const FeatureInfo& feature) {
    std::vector<ValueIndex> out;
    std::vector<std::string> ids;
    for (const ValueInfo& v : feature.values) ids.push_back(v.id);
    ids.emplace_back("other");
    for (const std::string& word : split_words(words)) {
      const auto group = std::find_if(feature.groups.begin(), feature.groups.end(), [&](const ValueGroup& g) { return g.id == word; });
      const auto at = std::find(ids.begin(), ids.end(), word);
      if (at != ids.end()) {
        out.emplace_back(static_cast<std::size_t>(at - ids.begin()));
      } else if (group != feature.groups.end()) {
        out.insert(out.end(), group->values.begin(), group->values.end());
      } else {
        for (const ValueGroup& g : feature.groups) ids.push_back(g.id);
        d_.error(o.value_place, "feature '" + o.feature + "' has no value '" + word + "'", did_you_mean(word, ids, "it has " + join_and(ids)));
        return {};
      }
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

  std::vector<ValueIndex> named(const Observation& o, FeatureIndex f) {
    const FeatureInfo& feature = t_.features[f];
    if (o.is_not.empty()) return values_of(o, o.value, feature);
    const std::vector<ValueIndex> ruled_out = values_of(o, o.is_not, feature);
    std::vector<ValueIndex> out;
    for (ValueIndex v; !ruled_out.empty() && v < feature.value_count(); ++v) {
      if (std::find(ruled_out.begin(), ruled_out.end(), v) == ruled_out.end()) out.push_back(v);
    }
    if (!ruled_out.empty() && out.empty()) d_.error(o.value_place, "feature '" + o.feature + "' has no value left", "leave one value out of not=\"...\"");
    return out;
  }

  /// In the feature's unit; nothing, and a mistake told, where it isn't measured so.
  std::optional<double> in_unit(const Observation& o, const FeatureInfo& feature, double amount) {
    if (feature.unit.empty()) {
      d_.error(o.value_place, "feature '" + o.feature + "' is not measured", "give one of its values: value=\"...\"");
      return std::nullopt;
    }
    const auto out = convert_unit(amount, o.unit, feature.unit);
    if (!out) d_.error(o.unit_place, "'" + o.unit + "' does not measure what feature '" + o.feature + "' is measured in", "give it in " + feature.unit);
    return out;
  }

  std::vector<ValueIndex> measured(const Observation& o, FeatureIndex f, std::optional<MeasureNoted>& noted) {
    const FeatureInfo& feature = t_.features[f];
    const auto amount = in_unit(o, feature, *o.measure);
    if (!amount) return {};
    const auto to = o.measure_to ? in_unit(o, feature, *o.measure_to) : std::nullopt;
    std::vector<ValueIndex> out = to ? values_within(feature, *amount, *to) : matching_values(feature, *amount);
    noted = MeasureNoted{*o.measure, o.measure_to, o.unit, *amount, to, !out.empty()};
    if (out.empty()) out.push_back(feature.other());
    return out;
  }

  ValueIndex nearest(const Observation& o, FeatureIndex f, const std::vector<ValueIndex>& open) {
    const auto amount = in_unit(o, t_.features[f], *o.measure);
    return o.measure_to || !amount ? open.front() : matching_values(t_.features[f], *amount).front();
  }

  void number(std::size_t i) {
    const NumberSeen& n = in_.numbers[i];
    std::vector<std::string> ids;
    for (const NumberInfo& info : t_.numbers) ids.push_back(info.id);
    const auto at = std::find(ids.begin(), ids.end(), n.id);
    if (at == ids.end()) {
      d_.error(n.id_place, "pack '" + t_.family + "' has no number '" + n.id + "'", did_you_mean(n.id, ids, "it has " + join_and(ids)));
      return;
    }
    NumberRead read;
    read.number = static_cast<std::size_t>(at - ids.begin());
    for (const NumberRead& other : e_.numbers) {
      if (other.number == read.number) {
        d_.error(n.id_place, "number '" + n.id + "' is given twice", "keep the one on the vehicle, and write the other in its note");
        return;
      }
    }
    read.seen = i;
    read.text = n.text;
    read.state = n.state;
    read.not_own = not_own(t_.rates, n);
    const NumberInfo& info = t_.numbers[read.number];
    read.readings = read_number(n.text, info.grammars());
    if (read.readings.empty()) {
      read.unread = explain_failure(n.text, info.grammars());
    } else {
      what_codes_say(read, n);
    }
    const bool identity = info.identity && !read.readings.empty();
    e_.numbers.push_back(std::move(read));
    if (identity) take_identity(t_, e_.numbers.size() - 1, e_);
  }

  /// Codes and ranges that give a feature its value are observations of it, unless it was looked at itself.
  void what_codes_say(const NumberRead& read, const NumberSeen& n) {
    const NumberInfo& info = t_.numbers[read.number];
    const FormReading& best = read.readings.front();
    const auto say = [&](FeatureIndex feature, ValueIndex value) {
      if (e_.find(feature) != nullptr) return;
      Seen seen = look(t_, feature, {value}, trust_in(n.how, n.sure));
      seen.number = read.number;
      e_.seen.push_back(std::move(seen));
    };
    for (const PartReading& part : best.parts) {
      if (!part.code) continue;
      const CodeInfo& code = info.forms[best.form].codes[part.part][*part.code];
      if (code.sets) say(code.sets->feature, code.sets->value);
    }
    if (!info.serial_feature || !best.serial) return;
    for (std::size_t r = 0; r < info.ranges.size(); ++r) {
      const RangeInfo& range = info.ranges[r];
      const bool form_fits = range.forms.empty() || std::find(range.forms.begin(), range.forms.end(), best.form) != range.forms.end();
      if (form_fits && *best.serial >= range.first && best.serial_to <= range.last) {
        say(*info.serial_feature, ValueIndex{r});
        break;
      }
    }
  }

  template <class Items>
  void known(const Items& items, const std::string& id, const std::string& kind, const Place& place) {
    if (id.empty()) return;
    std::vector<std::string> ids;
    for (const auto& item : items) ids.push_back(item.id);
    if (std::any_of(ids.begin(), ids.end(), [&](const std::string& known) { return glob_match(id, known); })) return;
    d_.error(place, "pack '" + t_.family + "' has no " + kind + " '" + id + "'", did_you_mean(id, ids, "it has " + join_and(ids)));
  }

  void codes() {
    for (const DateCode& c : in_.codes) {
      if (c.feature.empty() || t_.feature_index.contains(c.feature)) continue;
      d_.error(c.feature_place, "pack '" + t_.family + "' has no feature '" + c.feature + "'", did_you_mean(c.feature, feature_names(), "leave feature= out, or `exworks pack show " + t_.family + "` lists them"));
    }
  }

  void claims() {
    for (const Claim& c : in_.claims) {
      known(t_.axes.generations, c.generation, "generation", c.generation_place);
      known(t_.axes.variants, c.variant, "variant", c.variant_place);
      known(t_.axes.bodies, c.body, "body", c.body_place);
      known(t_.axes.markets, c.market, "market", c.market_place);
      known(t_.axes.plants, c.plant, "plant", c.plant_place);
    }
  }

  const Tables& t_;
  const Inspection& in_;
  Diagnostics& d_;
  Evidence e_;
};

}  // namespace

Evidence bind(const Tables& tables, const Inspection& inspection, Diagnostics& diagnostics) {
  return Binder(tables, inspection, diagnostics).run();
}

}  // namespace exworks
