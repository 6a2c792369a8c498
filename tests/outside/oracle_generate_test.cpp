#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "oracle_generate.hpp"
#include "oracle_tables.hpp"

/// Chance must meet what the arithmetic speaks of, else agreement on its packs would prove little.
using namespace exworks::test::oracle;

namespace {

using Met = std::map<std::string, int>;

/// Two looked-at assemblies, or an assembly and a lone feature, that one conversion sets; or one feature that two of them set.
void count_conversions(const SmallPack& pack, const Visit& visit, Met& met) {
  const auto looked_at = [&](std::size_t f) {
    return std::any_of(visit.looks.begin(), visit.looks.end(), [&](const Look& look) { return look.feature == f; });
  };
  std::map<std::size_t, int> setters;
  for (const Conversion& conversion : pack.conversions) {
    std::vector<std::optional<std::size_t>> assemblies;
    for (const Sets& sets : conversion.sets) {
      if (!looked_at(sets.feature)) continue;
      ++setters[sets.feature];
      assemblies.push_back(pack.features[sets.feature].assembly);
    }
    const bool across = !assemblies.empty() &&
                        std::any_of(assemblies.begin(), assemblies.end(), [&](const auto& a) { return a != assemblies[0]; });
    met["a conversion over several assemblies"] += across;
  }
  met["conversions that overlap"] += std::any_of(setters.begin(), setters.end(), [](const auto& s) { return s.second > 1; });
}

void count_looks(const SmallPack& pack, const Visit& visit, Met& met) {
  for (const Look& look : visit.looks) {
    const Feature& feature = pack.features[look.feature];
    met["several values left open"] += !look.but && look.values.size() > 1;
    met["not"] += look.but;
    met["a group"] += !look.groups.empty();
    met["a measure"] += look.measure.has_value();
    met["a pair with a rate"] += !feature.alike.empty();
    met["looks like other"] += std::any_of(feature.looks_like.begin(), feature.looks_like.end(),
                                           [&](const auto& p) { return p.second == feature.values; });
    met["foreign"] += feature.foreign.has_value();
    met["class " + feature.kind] += 1;
  }
}

/// Builds of looked-at features by how the pack speaks of them, and what is silent of them.
void count_silence(const SmallPack& pack, const PackTables& tables, const Visit& visit, Met& met) {
  const char* const names[] = {"spoken", "no such feature", "related", "unrelated", "mute"};
  for (const Look& look : visit.looks) {
    std::map<Voice, int> voices;
    for (std::size_t b = 0; b < tables.builds().list.size(); ++b) ++voices[tables.works(look.feature, b).voice];
    for (const auto& [voice, builds] : voices) ++met[names[static_cast<std::size_t>(voice)]];
    if (voices.size() < 2) continue;
    const auto all_silent = [&](const auto& of) {
      std::map<std::size_t, bool> silent;
      for (std::size_t b = 0; b < tables.builds().list.size(); ++b) {
        const auto [at, fresh] = silent.try_emplace(of(tables.builds().list[b]), true);
        at->second = at->second && tables.works(look.feature, b).silent();
      }
      return std::any_of(silent.begin(), silent.end(), [](const auto& s) { return s.second; });
    };
    met["a silent variant"] += all_silent([](const Build& b) { return b.variant; });
    met["a silent market"] += all_silent([](const Build& b) { return b.market; });
    met["a silent body"] += all_silent([&](const Build& b) { return pack.variants[b.variant].body; });
    met["a silent generation"] += all_silent([&](const Build& b) { return pack.variants[b.variant].generation; });
  }
}

}  // namespace

TEST_CASE("Oracle: chance meets every paragraph of the arithmetic", "[outside][oracle]") {
  Met met;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Dice dice(seed);
    const SmallPack pack = random_pack(dice);
    const Visit visit = random_visit(pack, dice, 0.75);
    const PackTables tables(pack, visit.month);
    count_conversions(pack, visit, met);
    count_looks(pack, visit, met);
    count_silence(pack, tables, visit, met);
    met["a market of the country"] += std::any_of(pack.markets.begin(), pack.markets.end(), [&](const Market& m) {
      return !visit.country.empty() && m.country == visit.country;
    });
    met["a country without a market"] +=
        !visit.country.empty() && where_it_stands(pack, tables.builds(), visit.country) == tables.builds().p;
    met["rows of shares"] += !pack.shares.empty();
    met["named outside donors"] += !pack.outsides.empty();
    met["rates of its own"] += pack.rates.relative != PackRates{}.relative;
    met["later donors"] +=
        !pack.assemblies.empty() && tables.mean_month(0, 0) + 0.5L < tables.mean_month(0, tables.builds().list.size() - 1);
  }
  for (const auto& [what, times] : met) {
    INFO(what << ": " << times);
    CHECK(times >= 15);
  }
  CHECK(met.size() >= 30);
}
