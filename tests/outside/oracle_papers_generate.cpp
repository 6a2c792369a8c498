#include "oracle.hpp"
#include "oracle_generate.hpp"
#include "oracle_xml.hpp"

/// Papers, claims and conditions by chance, and as text.
namespace exworks::test::oracle {

namespace {

/// A month, a year, or an interval.
std::string span(const Window& w) {
  if (w.first == w.last) return iso(w.first);
  if (w.first % 12 == 0 && w.last == w.first + 11) return std::to_string(1950 + w.first / 12);
  return iso(w.first) + "/" + iso(w.last);
}

Window random_span(Dice& dice, int low, int high) {
  const int first = dice.between(low, high);
  if (dice.chance(0.3)) return {first / 12 * 12, first / 12 * 12 + 11};
  return {first, first + (dice.chance(0.5) ? 0 : dice.between(1, 20))};
}

void narrow(const SmallPack& pack, Dice& dice, double chance, Scope& scope) {
  const auto one = [&](std::vector<bool>& axis, std::size_t n) {
    if (!dice.chance(chance)) return;
    axis.assign(n, false);
    axis[dice.below(n)] = true;
  };
  one(scope.generations, pack.generations);
  one(scope.variants, pack.variants.size());
  one(scope.bodies, pack.bodies);
  one(scope.markets, pack.markets.size());
  one(scope.plants, pack.plants.size());
}

/// Kind of axis and the one member, for each axis that is narrowed.
std::vector<std::pair<std::string, std::string>> words(const Scope& scope) {
  std::vector<std::pair<std::string, std::string>> out;
  const auto add = [&](const char* name, char letter, const std::vector<bool>& axis) {
    for (std::size_t i = 0; i < axis.size(); ++i) {
      if (axis[i]) out.emplace_back(name, letter + std::to_string(i));
    }
  };
  add("generation", 'g', scope.generations);
  add("variant", 'v', scope.variants);
  add("body", 'b', scope.bodies);
  add("market", 'm', scope.markets);
  add("plant", 'p', scope.plants);
  return out;
}

}  // namespace

void add_papers(const SmallPack& pack, Dice& dice, Visit& visit) {
  const char* const kinds[] = {"build-record", "registration", "registration", "plate", "handbook", "invoice", "letter", "owner",
                               "works-record", "test-certificate", "photograph", "import-paper"};
  for (std::size_t i = dice.below(4); i > 0; --i) {
    Paper paper{kinds[dice.below(8)], {}, {}};
    // From long before the first vehicle to ten years after the last.
    if (dice.chance(0.6)) paper.date = random_span(dice, 12, 150);
    if (!paper.date || dice.chance(0.4)) paper.built = random_span(dice, 12, 60);
    visit.papers.push_back(paper);
  }
  for (std::size_t i = dice.below(3); i > 0; --i) {
    Claim claim;
    narrow(pack, dice, 0.25, claim.scope);
    if (dice.chance(0.7) || words(claim.scope).empty()) claim.built = random_span(dice, 18, 56);
    visit.claims.push_back(claim);
  }
  if (!dice.chance(0.4)) return;
  narrow(pack, dice, 0.2, visit.given.scope);
  if (dice.chance(0.4)) visit.given.built = random_span(dice, 22, 45);
  if (!Model(pack, visit).possible()) visit.given = {};
}

std::string papers_xml(const Visit& visit) {
  std::string out;
  for (const Claim& claim : visit.claims) {
    out += "<claimed by=\"seller\"";
    for (const auto& [name, id] : words(claim.scope)) out += " " + name + "=\"" + id + "\"";
    if (claim.built) out += " built=\"" + span(*claim.built) + "\"";
    out += "/>\n";
  }
  for (const Paper& paper : visit.papers) {
    out += "<document kind=\"" + paper.kind + "\"";
    const std::string date = paper.date && paper.date_text.empty() ? span(*paper.date) : paper.date_text;
    const std::string built = paper.built && paper.built_text.empty() ? span(*paper.built) : paper.built_text;
    if (!date.empty()) out += " date=\"" + date + "\"";
    if (!built.empty()) out += " built=\"" + built + "\"";
    out += "/>\n";
  }
  return out;
}

std::vector<std::string> given_words(const Visit& visit) {
  if (!visit.given_words.empty()) return visit.given_words;
  std::vector<std::string> out;
  for (const auto& [name, id] : words(visit.given.scope)) out.push_back(name + "=" + id);
  if (visit.given.built) out.push_back("built=" + span(*visit.given.built));
  if (visit.given_own) out.push_back(*visit.given_own ? "number=own" : "number=not-own");
  return out;
}

}  // namespace exworks::test::oracle
