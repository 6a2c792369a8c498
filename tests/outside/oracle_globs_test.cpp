#include "oracle_compare.hpp"
#include "oracle_generate.hpp"

/// Conditions with `*`: several of one kind widen, different kinds narrow.
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

bool fits(const std::string& pattern, const std::string& id) {
  if (pattern.empty()) return id.empty();
  if (pattern[0] == '*') return fits(pattern.substr(1), id) || (!id.empty() && fits(pattern, id.substr(1)));
  return !id.empty() && pattern[0] == id[0] && fits(pattern.substr(1), id.substr(1));
}

/// One to three patterns, each of which fits some member.
void narrow(const std::string& kind, char letter, std::size_t members, Dice& dice, std::vector<bool>& axis, Visit& visit) {
  if (!dice.chance(0.5)) return;
  axis.assign(members, false);
  for (std::size_t i = 1 + dice.below(3); i > 0; --i) {
    const std::string id = letter + std::to_string(dice.below(members));
    const std::string patterns[] = {id, std::string("*") + id[1], std::string(1, letter) + "*", "*" + id + "*",
                                    std::string(1, letter) + "*" + id[1]};
    const std::string& pattern = patterns[dice.below(5)];
    visit.given_words.push_back(kind + "=" + pattern);
    for (std::size_t m = 0; m < members; ++m) axis[m] = axis[m] || fits(pattern, letter + std::to_string(m));
  }
}

}  // namespace

TEST_CASE("The engine agrees with the enumeration on conditions with patterns", "[outside][oracle]") {
  int conditions = 0;
  for (std::uint64_t seed = 10'001; seed <= 10'100; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const auto tables = pack_from_text(pack_xml(pack));
    Visit visit = random_visit(pack, dice, 0.5);
    Scope& scope = visit.given.scope;
    narrow("generation", 'g', pack.generations, dice, scope.generations, visit);
    narrow("variant", 'v', pack.variants.size(), dice, scope.variants, visit);
    narrow("body", 'b', pack.bodies, dice, scope.bodies, visit);
    narrow("market", 'm', pack.markets.size(), dice, scope.markets, visit);
    narrow("plant", 'p', pack.plants.size(), dice, scope.plants, visit);
    if (visit.given_words.empty() || !Model(pack, visit).possible()) continue;
    ++conditions;
    INFO("seed " << seed << "\n" << pack_xml(pack) << visit_xml(pack, visit));
    for (const std::string& word : visit.given_words) UNSCOPED_INFO("given " << word);
    CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
  }
  CHECK(conditions > 50);
}
