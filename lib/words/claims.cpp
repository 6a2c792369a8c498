#include "words/claims.hpp"

#include "base/text.hpp"
#include "words/english/scales.hpp"
#include "words/summary.hpp"

namespace exworks {

namespace {

template <class Items>
std::string named(const Items& items, const std::string& id) {
  std::vector<std::string> names;
  for (const auto& item : items) {
    if (!id.empty() && glob_match(id, item.id)) names.push_back(item.name);
  }
  return join_or(names);
}

/// The claimed thing's name; "" where this point is not claimed.
std::string claimed_name(const Tables& t, const Claim& c, ClaimOf point) {
  switch (point) {
    case ClaimOf::built: return c.built ? to_words(*c.built) : "";
    case ClaimOf::generation: return named(t.axes.generations, c.generation);
    case ClaimOf::variant: return named(t.axes.variants, c.variant);
    case ClaimOf::body: return named(t.axes.bodies, c.body);
    case ClaimOf::market: return named(t.axes.markets, c.market);
    case ClaimOf::plant: return named(t.axes.plants, c.plant);
  }
  return {};
}

std::string label(ClaimOf point) {
  switch (point) {
    case ClaimOf::built: return "Built";
    case ClaimOf::generation: return "Generation";
    case ClaimOf::variant: return "Variant";
    case ClaimOf::body: return "Body";
    case ClaimOf::market: return "Market";
    case ClaimOf::plant: return "Plant";
  }
  return {};
}

template <class Items>
std::string leading(const Items& items, const std::vector<Odds>& odds) {
  return items[odds.front().index].name + ", " + percent(odds.front().p);
}

}  // namespace

std::string support_words(const Assessment& a, const ClaimVerdict& c) {
  if (c.p <= a.settings.later_to && c.support == ClaimSupport::speaks_against) return "Not what the observations show; before looking it had " + percent(c.p_before) + ".";
  const std::string before = " Before looking it had " + percent(c.p_before) + ".";
  switch (c.support) {
    case ClaimSupport::speaks_for: return "What was seen speaks for it." + before;
    case ClaimSupport::speaks_against: return "What was seen speaks against it." + before;
    case ClaimSupport::says_nothing: return "Nothing seen speaks of it." + before;
  }
  return {};
}

std::string claim_words(const Tables& t, const Claim& c) {
  std::vector<std::string> words;
  for (ClaimOf of : {ClaimOf::built, ClaimOf::generation, ClaimOf::variant, ClaimOf::body, ClaimOf::market, ClaimOf::plant}) {
    const std::string name = claimed_name(t, c, of);
    if (!name.empty()) words.push_back(of == ClaimOf::built ? "built " + name : name);
  }
  return join_and(words);
}

std::string point_words(const Tables& t, const Claim& c, ClaimOf point) { return label(point) + ": " + claimed_name(t, c, point); }

std::string found_words(const Tables& t, const Marginals& m, ClaimOf point) {
  switch (point) {
    case ClaimOf::built: return span_words(m.date) + " (" + percent(m.date.level) + " of the odds)";
    case ClaimOf::generation: return leading(t.axes.generations, m.generations);
    case ClaimOf::variant: return leading(t.axes.variants, m.variants);
    case ClaimOf::body: return leading(t.axes.bodies, m.bodies);
    case ClaimOf::market: return leading(t.axes.markets, m.markets);
    case ClaimOf::plant: return leading(t.axes.plants, m.plants);
  }
  return {};
}

}  // namespace exworks
