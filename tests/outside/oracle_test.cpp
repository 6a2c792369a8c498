#include <algorithm>
#include <cmath>
#include <numeric>

#include "oracle_carrier.hpp"
#include "oracle_engine.hpp"
#include "oracle_generate.hpp"

/// The engine against a second, slow reading of the arithmetic on packs made by chance: oracle.hpp visits every latent state.
using namespace exworks::test;
using namespace exworks::test::oracle;

namespace {

constexpr std::uint64_t packs = 150;
constexpr int visits = 2;

EngineAnswer engine_answer(const SmallPack& pack, const exworks::Tables& tables, const Visit& visit,
                           const std::string& more = "") {
  return EngineRun(case_of(pack, tables, visit, more)).answer();
}

/// The largest gap between two lists of the same length.
double gap(const std::vector<double>& a, const std::vector<double>& b) {
  REQUIRE(a.size() == b.size());
  double out = 0;
  for (std::size_t i = 0; i < a.size(); ++i) out = std::max(out, std::fabs(a[i] - b[i]));
  return out;
}

}  // namespace

TEST_CASE("The engine agrees with a brute-force enumeration on packs made by chance", "[outside][oracle]") {
  for (std::uint64_t seed = 1; seed <= packs; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const std::string xml = pack_xml(pack);
    INFO("seed " << seed << "\n" << xml);
    const auto tables = pack_from_text(xml);
    for (int i = 0; i < visits; ++i) {
      const Visit visit = random_visit(pack, dice, 0.75);
      INFO(visit_xml(pack, visit));
      const Differences differences = compare_all(case_of(pack, tables, visit));
      REQUIRE(differences.text() == "");
    }
  }
}

TEST_CASE("Each kind of paper by itself weighs what its row of FORMAT.md says", "[outside][oracle]") {
  Dice dice(42);
  const SmallPack pack = random_pack(dice);
  const auto tables = pack_from_text(pack_xml(pack));
  const std::vector<Window> spans{{30, 30}, {24, 35}, {36, 47}, {20, 37}, {33, 36}, {100, 111}};
  for (const std::string kind : {"build-record", "registration", "plate", "handbook", "invoice", "letter", "owner", "works-record", "test-certificate", "photograph", "import-paper"}) {
    for (const Window& date : spans) {
      for (const Paper& paper : {Paper{kind, date, {}}, Paper{kind, {}, date}, Paper{kind, date, Window{28, 30}}}) {
        Visit visit;
        visit.papers = {paper};
        INFO(visit_xml(pack, visit));
        CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
        visit.papers.clear();
        visit.claims = {{{}, date}};
        if (paper.date || kind != "owner") continue;
        INFO(visit_xml(pack, visit));
        CHECK(compare_all(case_of(pack, tables, visit)).text() == "");
      }
    }
  }
}

TEST_CASE("The engine agrees with the enumeration on papers, claims and conditions", "[outside][oracle]") {
  for (std::uint64_t seed = 6001; seed <= 6080; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const std::string xml = pack_xml(pack);
    INFO("seed " << seed << "\n" << xml);
    const auto tables = pack_from_text(xml);
    for (int i = 0; i < visits; ++i) {
      Visit visit = random_visit(pack, dice, 0.4);
      add_papers(pack, dice, visit);
      INFO(visit_xml(pack, visit));
      for (const std::string& word : given_words(visit)) UNSCOPED_INFO("given " << word);
      const Differences differences = compare_all(case_of(pack, tables, visit));
      CHECK(differences.text() == "");
    }
  }
}

TEST_CASE("The engine agrees with the enumeration on six features of the Aldermoor Carrier", "[outside][oracle]") {
  SmallPack structs = carrier();
  exworks::Tables tables = exworks::test::pack("aldermoor-carrier");
  // Offsets are for the packs made by chance: here they would take minutes.
  structs.rates.offset_shares = tables.rates.offset_share = {1};
  const Visit visit = carrier_visit({{0, {1}, "seen", "probable"}, {1, {0}}, {3, {2}}, {4, {1}, "told"}, {5, {1}}});
  const std::string xml = carrier_visit_xml(visit);
  CHECK(compare_all({structs, tables, visit, xml, carrier_names()}).text() == "");
}

TEST_CASE("The order of observations is irrelevant", "[outside][oracle]") {
  for (std::uint64_t seed = 1001; seed <= 1040; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const auto tables = pack_from_text(pack_xml(pack));
    Visit visit = random_visit(pack, dice, 1);
    const EngineAnswer before = engine_answer(pack, tables, visit);
    std::rotate(visit.looks.begin(), visit.looks.begin() + 1, visit.looks.end());
    std::swap(visit.looks.front(), visit.looks.back());
    const EngineAnswer after = engine_answer(pack, tables, visit);
    INFO("seed " << seed);
    CHECK(gap(before.build, after.build) <= 1e-12);
    CHECK(std::fabs(before.log_evidence - after.log_evidence) <= 1e-10);
    CHECK(std::fabs(before.score.value - after.score.value) <= 1e-12);
  }
}

TEST_CASE("A feature that was not seen changes no bit of the posterior", "[outside][oracle]") {
  for (std::uint64_t seed = 2001; seed <= 2040; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const auto tables = pack_from_text(pack_xml(pack));
    const Visit visit = random_visit(pack, dice, 0.5);
    std::string unseen;
    for (std::size_t f = 0; f < pack.features.size(); ++f) {
      const auto looked_at = [&](const Look& look) { return look.feature == f; };
      if (std::any_of(visit.looks.begin(), visit.looks.end(), looked_at)) continue;
      unseen += "<observed feature=\"f" + std::to_string(f) + "\" state=\"not-seen\"/>";
    }
    INFO("seed " << seed);
    CHECK(engine_answer(pack, tables, visit).build == engine_answer(pack, tables, visit, unseen).build);
  }
}

TEST_CASE("A lone feature on which the pack is silent for every build says nothing of the build", "[outside][oracle]") {
  for (std::uint64_t seed = 3001; seed <= 3040; ++seed) {
    Dice dice(seed);
    SmallPack pack = random_pack(dice);
    pack.rates.levels = {1, 1, 1, 1};  // else it says how much the vehicle was altered
    // Each value needs something that leads to it.
    Feature silent;
    silent.values = 3;
    for (std::size_t v = 0; v < silent.values; ++v) silent.changes.push_back({v, {}, {}, static_cast<double>(v + 1)});
    pack.features.push_back(silent);
    const auto tables = pack_from_text(pack_xml(pack));
    Visit visit = random_visit(pack, dice, 0.7);
    std::erase_if(visit.looks, [&](const Look& look) { return look.feature + 1 == pack.features.size(); });
    const EngineAnswer without = engine_answer(pack, tables, visit);
    for (std::size_t value = 0; value <= silent.values; ++value) {
      visit.looks.push_back({pack.features.size() - 1, {value}});
      INFO("seed " << seed << " value " << value);
      CHECK(gap(without.build, engine_answer(pack, tables, visit).build) <= 1e-12);
      visit.looks.pop_back();
    }
  }
}

TEST_CASE("Without an observation the answer is the prior", "[outside][oracle]") {
  for (std::uint64_t seed = 4001; seed <= 4040; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const auto tables = pack_from_text(pack_xml(pack));
    INFO("seed " << seed);
    const EngineAnswer engine = engine_answer(pack, tables, {});
    CHECK(std::fabs(engine.log_evidence) <= 1e-12);
    CHECK(compare_posterior(case_of(pack, tables, {})).text() == "");
    CHECK(engine.score.weight == 0);
  }
}

TEST_CASE("Six hundred observations do not underflow, in one assembly or in none", "[outside][oracle]") {
  for (const bool one_assembly : {true, false}) {
    Dice dice(5000 + one_assembly);
    const SmallPack pack = long_pack(dice, 600, one_assembly);
    const auto tables = pack_from_text(pack_xml(pack));
    const Visit visit = random_visit(pack, dice, 1);
    REQUIRE(visit.looks.size() == 600);
    const EngineAnswer engine = engine_answer(pack, tables, visit);
    INFO("one assembly: " << one_assembly << ", log P(o) " << engine.log_evidence);
    CHECK(engine.log_evidence < std::log(1e-300));  // else the test would prove nothing
    CHECK(std::fabs(std::accumulate(engine.build.begin(), engine.build.end(), 0.0) - 1) <= 1e-12);
    const Model model(pack, visit);
    const Answer due = model.answer();
    for (const EngineLook& look : engine.looks) {
      const auto same = [&](const Look& l) { return l.feature == look.feature; };
      const auto at = std::find_if(model.looks().begin(), model.looks().end(), same) - model.looks().begin();
      CHECK(std::isfinite(look.likelihood_ratio));
      CHECK(std::fabs(look.p_type - static_cast<double>(due.looks[static_cast<std::size_t>(at)].p_type)) <= 1e-9);
    }
    CHECK((engine.score.value > 0 && engine.score.value < 1));
    CHECK(compare_posterior(case_of(pack, tables, visit)).text() == "");
  }
}
