#include "words/english/scopes.hpp"

#include "base/text.hpp"

namespace exworks {

namespace {

/// Names the members of a set, or those left out when they are fewer.
template <class Items>
std::string axis_words(const Items& items, const AxisSet& set, const std::string& plural) {
  std::vector<std::string> in, out;
  for (std::size_t i = 0; i < items.size(); ++i) (set[i] ? in : out).push_back(items[i].name);
  if (out.empty()) return {};
  if (in.size() > 3 && out.size() <= 3) return "not " + join_and(out);
  if (in.size() > 6) return std::to_string(in.size()) + " " + plural;
  return join_and(in);
}

/// Whole generations and whole bodies are named as such.
std::string variant_words(const Axes& axes, const AxisSet& set) {
  AxisSet generations, bodies, split_generations, split_bodies;
  bool all = true;
  for (std::size_t v = 0; v < axes.variants.size(); ++v) {
    const VariantInfo& variant = axes.variants[v];
    if (set[v]) {
      generations.set(variant.generation);
      bodies.set(variant.body);
    } else {
      all = false;
      split_generations.set(variant.generation);
      split_bodies.set(variant.body);
    }
  }
  if (all) return {};
  if ((generations & split_generations).none()) return axis_words(axes.generations, generations, "generations");
  if ((bodies & split_bodies).none()) return axis_words(axes.bodies, bodies, "bodies");
  // A rectangle of generations and bodies is said as one.
  for (std::size_t v = 0; v < axes.variants.size(); ++v) {
    const VariantInfo& variant = axes.variants[v];
    if (!set[v] && generations[variant.generation] && bodies[variant.body]) return axis_words(axes.variants, set, "variants");
  }
  return axis_words(axes.generations, generations, "generations") + ": " + axis_words(axes.bodies, bodies, "bodies");
}

/// All plants that assemble from kits, or all that don't, are said as one where they are too many to name.
std::string plant_words(const Axes& axes, const AxisSet& set) {
  AxisSet kits, works;
  for (std::size_t p = 0; p < axes.plants.size(); ++p) (axes.plants[p].kit ? kits : works).set(p);
  const AxisSet named = set & (kits | works);
  if (named.count() > 3 && kits.any() && works.any()) {
    if (named == kits) return "assembled from kits";
    if (named == works) return "not assembled from kits";
  }
  return axis_words(axes.plants, set, "plants");
}

}  // namespace

std::string scope_words(const Axes& axes, const Scope& scope) {
  const std::string variants = variant_words(axes, scope.variants), markets = axis_words(axes.markets, scope.markets, "markets"),
                    plants = plant_words(axes, scope.plants);
  const std::string where = markets + (markets.empty() || plants.empty() ? "" : "; ") + plants;
  if (variants.empty() || where.empty()) return variants + where;
  return variants + " (" + where + ")";
}

std::string period_words(const std::optional<Edge>& from, const std::optional<Edge>& to) {
  const auto edge = [](const Edge& e) { return e.first == e.last ? to_words(e.first) : "between " + to_words(e.first) + " and " + to_words(e.last); };
  const bool has_from = from && !from->open, has_to = to && !to->open;
  if (has_from && has_to) return "from " + edge(*from) + " to " + edge(*to);
  if (has_from) return "from " + edge(*from);
  if (has_to) return "to " + edge(*to);
  return {};
}

std::string period_words(const std::optional<Edge>& from, const std::optional<Edge>& to, const std::optional<std::int64_t>& from_number,
                         const std::optional<std::int64_t>& to_number) {
  std::string out = period_words(from, to);
  const auto add = [&](const char* edge, const std::optional<std::int64_t>& number) {
    if (number) out += (out.empty() ? "" : ", ") + std::string(edge) + " number " + std::to_string(*number);
  };
  add("from", from_number);
  add("to", to_number);
  return out;
}

std::string period_words(const FactInfo& fact) { return period_words(fact.from, fact.to, fact.from_number, fact.to_number); }

std::string law_words(const LegalBasis& law) { return law.requirement + ", " + law.market + ": " + law.asks; }

std::string kind_words(SourceKind kind) { return kind == SourceKind::common_practice ? "common practice" : word(kind); }

std::string citation(const SourceInfo& source) {
  std::string out = source.title;
  if (!source.publisher.empty()) out += ", " + source.publisher;
  if (!source.year.empty()) out += ", " + source.year;
  return out;
}

}  // namespace exworks
