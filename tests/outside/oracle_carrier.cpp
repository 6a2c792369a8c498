#include "oracle_carrier.hpp"

namespace exworks::test::oracle {

namespace {

constexpr int month(int year, int m) {
  return (year - 1950) * 12 + m - 1;
}

using Members = std::vector<bool>;

const Members s1{true, false, false}, s1_s2{true, true, false}, s2{false, true, false}, s2_s3{false, true, true},
    s3{false, false, true};
const Members northland{false, true, false}, not_northland{true, false, true};

Scope of(const Members& generations, const Members& markets = {}) {
  return {generations, {}, {}, markets, {}};
}

Fact fact(std::size_t value, const Scope& scope, std::optional<Window> from = {}, std::optional<Window> to = {}) {
  return {value, scope, from, to};
}

void add_axes(SmallPack& pack) {
  pack.generations = pack.bodies = 3;
  pack.markets = {{6}, {2}, {1}};  // home, northland, southmark
  pack.plants = {{1, {true, true, true}, {}},
                 {3, {false, false, true}, Window{month(1954, 2), month(1966, 3)}}};  // works, redquay
  const Members all{true, true, true}, both{true, true}, no_kits{true, false}, home_northland{true, true, false};
  const Window first{month(1951, 3), month(1955, 6)}, second{month(1955, 7), month(1961, 2)},
      third{month(1961, 3), month(1968, 9)};
  pack.variants = {{0, 0, all, both, first, 0, 20100},
                   {0, 1, all, both, {month(1952, 1), first.last}, 3, 6300},
                   {1, 0, all, both, second, 0, 30500},
                   {1, 1, all, both, second, 0, 10200},
                   {1, 2, home_northland, no_kits, {month(1956, 4), second.last}, 0, 7800},
                   {2, 0, all, both, third, 0, 41200},
                   {2, 1, all, both, third, 0, 12400},
                   {2, 2, home_northland, no_kits, {third.first, month(1967, 6)}, 0, 10000}};
  pack.volumes = {{of(s1), {month(1951, 3), month(1952, 12)}, 7300}, {of(s2), {month(1957, 1), month(1957, 12)}, 3900}};
}

Members variants(const Members& generations) {
  return {generations[0], generations[0], generations[1], generations[1],
          generations[1], generations[2], generations[2], generations[2]};
}

void add_assemblies(SmallPack& pack) {
  const Members any{true, true, true};
  pack.assemblies = {{0.08, {{variants(s1_s2), variants(s1_s2)}, {variants(s3), variants(s3)}}},      // front wings
                     {0.2, {{variants(s1), variants(any)}, {variants(s2_s3), variants(s2_s3)}}}};     // gearbox
  pack.outsides = {{1, {}, Window{month(1982, 1), month(1982, 12)}, 0.1, {{3, 2}, {4, 1}, {5, 3}}}};  // the five-speed gearbox
}

void add_features(SmallPack& pack) {
  const Window winter_1958{month(1958, 9), month(1959, 2)}, january_1953{month(1953, 1), month(1953, 1)};
  const Window year_1955{month(1955, 1), month(1955, 12)}, year_1956{month(1956, 1), month(1956, 12)};
  Feature headlamps{.values = 2, .assembly = 0, .weight = 6, .foreign = 0.05, .kind = "panel"};
  headlamps.changes = {{1, of(s1_s2), year_1955, 1}};
  headlamps.facts = {fact(0, of(s1_s2, not_northland), {}, winter_1958), fact(1, of(s1_s2, not_northland), winter_1958),
                     fact(0, of(s1, northland), {}, january_1953), fact(1, of(s1_s2, northland), january_1953), fact(1, of(s3))};
  // The change at home and its northern one rest on two sources where the parts list and the letters say it.
  headlamps.facts[0].backing = headlamps.facts[3].backing = 0;
  Feature rear_lamps{.values = 3, .weight = 3, .kind = "upgrade"};
  rear_lamps.facts = {fact(0, of(s1)), fact(1, of(s2)), fact(2, of(s3))};
  rear_lamps.changes = {{1, of(s1), year_1956, 4}};
  Feature starter{.values = 2, .weight = 2, .foreign = 0.05};
  starter.facts = {fact(0, of(s1)), fact(1, of(s2_s3))};
  Feature lever{.values = 2, .assembly = 1, .weight = 2};
  lever.facts = {fact(0, of(s1_s2)), fact(1, of(s3))};
  Feature synchromesh{.values = 2, .looks_like = {{0, 1}, {1, 0}}, .assembly = 1, .weight = 4, .foreign = 0.05, .kind = "structure"};
  synchromesh.facts = {fact(0, of(s1)), fact(1, of(s2_s3))};
  Feature casing{.values = 3, .looks_like = {{1, 2}, {2, 1}}, .assembly = 1, .weight = 4, .kind = "structure"};
  casing.facts = {fact(0, of(s1)), fact(1, of(s2)), fact(2, of(s3))};
  pack.features = {headlamps, rear_lamps, starter, lever, synchromesh, casing};
}

}  // namespace

SmallPack carrier() {
  SmallPack pack;
  pack.rates.altered = 0.05;
  add_axes(pack);
  add_assemblies(pack);
  add_features(pack);
  return pack;
}

Names carrier_names() {
  return {{"headlamp-position", "rear-lamps", "starter", "gear-lever", "synchromesh", "gearbox-casing"},
          {"front-wings", "gearbox"},
          {"five-speed-gearbox"},
          {},
          {{"raised-headlamps"}, {"larger-rear-lamps"}, {}, {}, {}, {}}};
}

Visit carrier_visit(const std::vector<Look>& looks) {
  return {month(2026, 11), looks};
}

std::string carrier_visit_xml(const Visit& visit) {
  static const std::vector<std::vector<std::string>> values{
      {"low", "high", "other"},          {"small-glass", "large-round", "upright", "other"},
      {"knob", "key", "other"},          {"long", "short", "other"},
      {"third-and-top", "all", "other"}, {"ribbed", "smooth", "smooth-long", "other"}};
  std::string out = R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20">)";
  for (const Look& look : visit.looks) {
    out += "<observed feature=\"" + carrier_names().features[look.feature] + "\" value=\"" +
           values[look.feature][look.values.at(0)] + "\" how=\"" + look.how + "\" sure=\"" + look.sure + "\"/>";
  }
  return out + "</inspection>";
}

}  // namespace exworks::test::oracle
