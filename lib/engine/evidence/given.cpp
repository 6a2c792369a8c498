#include "engine/evidence/given.hpp"

#include "base/text.hpp"

namespace exworks {

namespace {

class Parser {
 public:
  Parser(const Tables& tables, const Place& place, Diagnostics& diagnostics) : t_(tables), place_(place), d_(diagnostics) {}

  void take(const std::string& condition) {
    const std::size_t equals = condition.find('=');
    const std::string key = condition.substr(0, equals);
    const std::string value = equals == std::string::npos ? "" : condition.substr(equals + 1);
    if (key == "built") built_by(value);
    else if (key == "number") number(value);
    else if (!axis(key, value)) d_.error(place_, "'" + condition + "' is no condition", "give variant=, generation=, body=, market=, plant=, built= or number=");
  }

  /// Members of an axis by a glob; false when there is no such axis.
  bool axis(const std::string& key, const std::string& value) {
    if (key == "market") mark(g_.markets, matches(t_.axes.markets, key, value));
    else if (key == "plant") mark(g_.plants, matches(t_.axes.plants, key, value));
    else if (key == "variant") mark(by_variant_, matches(t_.axes.variants, key, value));
    else if (key == "generation") mark(by_generation_, of_variants(matches(t_.axes.generations, key, value), true));
    else if (key == "body") mark(by_body_, of_variants(matches(t_.axes.bodies, key, value), false));
    else return false;
    return true;
  }

  void built(const std::optional<Edge>& edge) { g_.built = edge; }

  Given finish() {
    for (const auto* part : {&by_variant_, &by_generation_, &by_body_}) {
      if (part->empty()) continue;
      if (g_.variants.empty()) g_.variants.assign(t_.axes.variants.size(), true);
      for (std::size_t v = 0; v < part->size(); ++v) g_.variants[v] = g_.variants[v] && (*part)[v];
    }
    return g_;
  }

 private:
  template <class Items>
  std::vector<bool> matches(const Items& items, const std::string& kind, const std::string& pattern) {
    std::vector<bool> out(items.size(), false);
    std::vector<std::string> ids;
    bool any = false;
    for (std::size_t i = 0; i < items.size(); ++i) {
      ids.push_back(items[i].id);
      out[i] = glob_match(pattern, items[i].id);
      any = any || out[i];
    }
    if (!any) {
      d_.error(place_, "pack '" + t_.family + "' has no " + kind + " '" + pattern + "'", did_you_mean(pattern, ids, "it has " + join_and(ids)));
    }
    return out;
  }

  std::vector<bool> of_variants(const std::vector<bool>& group, bool generation) const {
    std::vector<bool> out;
    for (const VariantInfo& v : t_.axes.variants) out.push_back(group[generation ? v.generation : v.body]);
    return out;
  }

  static void mark(std::vector<bool>& set, const std::vector<bool>& more) {
    if (set.empty()) set.assign(more.size(), false);
    for (std::size_t i = 0; i < more.size(); ++i) set[i] = set[i] || more[i];
  }

  void built_by(const std::string& value) {
    std::string why;
    g_.built = parse_edge(value, &why);
    if (!g_.built) d_.error(place_, "'" + value + "' is no date", why);
  }

  void number(const std::string& value) {
    if (value == "own" || value == "not-own") g_.own_number = value == "own";
    else d_.error(place_, "'" + value + "' can't be said of the number", "write number=own or number=not-own");
  }

  const Tables& t_;
  Place place_;
  Diagnostics& d_;
  Given g_;
  std::vector<bool> by_variant_, by_generation_, by_body_;
};

}  // namespace

Given parse_given(const Tables& tables, const std::vector<std::string>& conditions, const Place& place, Diagnostics& diagnostics) {
  Parser parser(tables, place, diagnostics);
  for (const std::string& c : conditions) parser.take(c);
  return parser.finish();
}

Given as_given(const Tables& tables, const Claim& c) {
  Diagnostics none;  // the names were checked when the inspection was bound
  Parser parser(tables, c.place, none);
  parser.built(c.built);
  for (const auto& [axis, value] : {std::pair<const char*, const std::string&>{"generation", c.generation}, {"variant", c.variant}, {"body", c.body}, {"market", c.market}, {"plant", c.plant}}) {
    if (!value.empty()) parser.axis(axis, value);
  }
  return parser.finish();
}

}  // namespace exworks
