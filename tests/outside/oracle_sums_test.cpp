#include <cmath>

#include "oracle_generate.hpp"
#include "oracle_hand.hpp"
#include "oracle_noted.hpp"

/// What must add up to one on packs made by chance, whatever the arithmetic says.
using namespace exworks::test::oracle;

namespace {

void check_one(const std::string& what, Real total) {
  INFO(what);
  CHECK(static_cast<double>(total) == by_hand(1));
}

void check_tables(const SmallPack& pack, const Model& model) {
  const PackTables& tables = model.tables();
  check_one("builds", sum(tables.builds().p));
  for (std::size_t f = 0; f < model.features().size(); ++f) {
    for (std::size_t b = 0; b < model.builds().size(); ++b) {
      check_one("what the works fitted", sum(tables.works(f, b).share));
      check_one("what a change leaves", sum(all_of(model.features()[f], tables.changed(f, b))));
    }
    for (std::size_t there = 0; there <= model.features()[f].values; ++there) {
      for (std::size_t doubt = 0; doubt < 3; ++doubt)
        check_one("notes", sum(noted(model.features()[f], pack.rates, there, doubt)));
    }
  }
  for (std::size_t a = 0; a < pack.assemblies.size(); ++a) {
    Real all = 0;
    for (const Way& way : ways(tables, a, 0, 3)) all += way.p;
    check_one("ways", all);
  }
}

void check_answer(const Answer& answer) {
  check_one("builds", sum(answer.build));
  check_one("levels", sum({answer.level.begin(), answer.level.end()}));
  for (const LookAnswer& look : answer.looks) {
    check_one("type", look.p_type + look.p_later);
    check_one("type before", look.type_before + look.later_before);
    check_one("what is there", sum(look.there));
    check_one("works", sum(look.works));
    Real explained = 0;
    for (const auto& [reason, p] : look.explanations) explained += p;
    check_one("explanations", explained);
    CHECK(look.p_untouched <= look.p_type + 1e-12L);
  }
  for (const AssemblyAnswer& assembly : answer.assemblies) {
    if (assembly.p_replaced > 0) check_one("donors", sum(assembly.donor) + sum(assembly.outside) + assembly.p_unnamed);
  }
}

}  // namespace

TEST_CASE("Oracle: odds add up to one on packs made by chance", "[outside][oracle][sums]") {
  for (std::uint64_t seed = 1; seed <= 25; ++seed) {
    INFO("seed " << seed);
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const Visit visit = random_visit(pack, dice, 0.6);
    const Model model(pack, visit);
    check_tables(pack, model);
    const Answer answer = model.answer();
    check_answer(answer);
    Real score = 0;
    for (const auto& [value, p] : model.score(answer)) score += p;
    if (!model.score(answer).empty()) check_one("score", score);
  }
}

TEST_CASE("Oracle: all that could be noted adds up to one", "[outside][oracle][sums]") {
  for (std::uint64_t seed = 101; seed <= 130; ++seed) {
    INFO("seed " << seed);
    Dice dice(seed);
    const SmallPack pack = tiny_pack(dice);
    Visit visit = random_visit(pack, dice, 0);
    Real all = 0;
    for (std::size_t x = 0; x <= pack.features[0].values; ++x) {
      for (std::size_t y = 0; y <= pack.features[1].values; ++y) {
        for (std::size_t z = 0; z <= pack.features[2].values; ++z) {
          visit.looks = {{0, {x}, "seen", "guess"}, {1, {y}, "told"}, {2, {z}}};
          all += Model(pack, visit).answer().evidence;
        }
      }
    }
    check_one("evidence", all);
    // The likeliest of all is as unlikely as any other; all of them are what a look ahead expects.
    visit.looks = {{0, {0}}, {1, {0}}};
    for (const MoreToSee& next : look_ahead(Model(pack, visit), {0, 1})) {
      check_one("what will be noted", sum(next.noted));
      CHECK((next.build_bits >= -1e-15L && next.verdict_bits >= -1e-15L));
    }
    CHECK(fit(Model(pack, visit)) <= 1 + 1e-12L);
  }
}

TEST_CASE("Oracle: a look that leaves all open changes nothing", "[outside][oracle][sums]") {
  for (std::uint64_t seed = 201; seed <= 215; ++seed) {
    INFO("seed " << seed);
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    Visit visit = random_visit(pack, dice, 0.5);
    const Answer before = Model(pack, visit).answer();
    for (std::size_t f = 0; f < pack.features.size(); ++f) {
      if (std::any_of(visit.looks.begin(), visit.looks.end(), [&](const Look& look) { return look.feature == f; })) continue;
      Look anything{f, {}};
      for (std::size_t v = 0; v <= pack.features[f].values; ++v) anything.values.push_back(v);
      visit.looks.push_back(anything);
    }
    const Answer after = Model(pack, visit).answer();
    check_row(after.build, before.build);
    for (std::size_t i = 0; i < before.looks.size(); ++i)
      CHECK(static_cast<double>(after.looks[i].p_type) == by_hand(before.looks[i].p_type));
  }
}

TEST_CASE("Oracle: four hundred observations do not underflow, in one assembly or in none", "[outside][oracle][sums]") {
  for (const bool one_assembly : {true, false}) {
    Dice dice(5000 + one_assembly);
    const SmallPack pack = long_pack(dice, 400, one_assembly);
    const Visit visit = random_visit(pack, dice, 1);
    REQUIRE(visit.looks.size() == 400);
    const Answer answer = Model(pack, visit).answer();
    CHECK((answer.evidence > 0 && answer.evidence < 1e-150L));
    check_answer(answer);
  }
}
