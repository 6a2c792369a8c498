#include "study/rates_file.hpp"
#include "support.hpp"

/// Law where the pack is silent, and rates learned from confirmed vehicles.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string two_markets = R"x(<pack format="1" id="trial" name="Aldermoor Wagon" version="1" status="invented">
  <source id="BOOK" kind="published" title="Wagon handbook (invented)" publisher="Aldermoor Works (invented)" year="1966"/>
  <place id="inside" name="Inside"/>
  <market id="gb" name="Britain" country="GB"/> <market id="elsewhere" name="Elsewhere" country="NZ"/>
  <plant id="works" name="Works"/> <generation id="g" name="Wagon"/> <body id="saloon" name="saloon"/>
  <variant id="v" name="Wagon" generation="g" body="saloon" markets="*" plants="*" from="1960-01" to="1970-12" source="BOOK"/>
  <feature id="belt-anchorages" name="Anchorages for seat belts" place="inside">
    <value id="none" name="none"/> <value id="fitted" name="fitted"/>
    <fact value="none" from="1960-01" to="1962-01" source="BOOK"/>
    LEGAL
    <later id="drilled" name="anchorages added" value="fitted" reversible="yes" hours="3" source="BOOK">Plates with drilled holes.</later>
  </feature>
</pack>)x";

/// A pack beside the real market folder, so that ../market is found.
Tables with_law(const std::string& legal, Diagnostics& d) {
  TemporaryFolder folder;
  std::string xml = two_markets;
  xml.replace(xml.find("LEGAL"), 5, legal);
  folder.write("trial/pack.xml", xml);
  fs::create_directory_symlink(rules_dir() / "market", folder.path() / "market");
  const auto pack = read_pack(folder.path() / "trial", d);
  if (!pack) return {};
  check_pack(*pack, d);
  return compile(*pack, d).value();
}

Judged anchorages(const Tables& t, const std::string& market, const std::string& built) {
  Diagnostics d;
  Given given;
  given.markets = {market == "gb", market != "gb"};
  std::string why;
  given.built = parse_edge(built, &why);
  return assess_lines(t, R"(<observed feature="belt-anchorages" value="fitted"/>)", {}, given);
}

}  // namespace

// GB-020 of the dossier on dated legal requirements: anchorages at the front seats of cars first used from 1 January 1965
// (Construction and Use, regulation 46).
TEST_CASE("A dated requirement binds where the pack is silent, only in its own country and from its date", "[law]") {
  Diagnostics d;
  const Tables t = with_law(R"(<legal requirement="GB-020" value="fitted"/>)", d);
  INFO(messages(d));
  REQUIRE_FALSE(d.has_errors());
  const FeatureVerdict bound = feature(anchorages(t, "gb", "1967"), "belt-anchorages");
  CHECK(bound.verdict == VerdictKind::original);
  CHECK(reason(anchorages(t, "gb", "1967"), "belt-anchorages").find("asked for by law (GB-020, Great Britain") != std::string::npos);
  CHECK_FALSE(bound.reason.sources.empty());
  // Elsewhere, and before the date, the pack stays silent and nothing follows.
  CHECK(feature(anchorages(t, "elsewhere", "1967"), "belt-anchorages").verdict == VerdictKind::uncertain);
  CHECK(feature(anchorages(t, "gb", "1963"), "belt-anchorages").verdict == VerdictKind::uncertain);
  // Where the pack speaks, law gives way to it.
  const FeatureVerdict before = feature(anchorages(t, "gb", "1961"), "belt-anchorages");
  CHECK(before.finding.p_type < 0.5);
  CHECK(reason(anchorages(t, "gb", "1961"), "belt-anchorages").find("law") == std::string::npos);
}

TEST_CASE("A requirement that states today's duty proves nothing of what was fitted, and is refused as a fact", "[law]") {
  Diagnostics d;
  with_law(R"(<legal requirement="GB-001" value="fitted"/>)", d);
  CHECK(messages(d).find("requirement 'GB-001' says nothing of what vehicles had when new") != std::string::npos);
  Diagnostics unknown;
  with_law(R"(<legal requirement="GB-02O" value="fitted"/>)", unknown);
  CHECK(messages(unknown).find("there is no requirement 'GB-02O'; did you mean 'GB-02") != std::string::npos);
}

// The mean of a Beta posterior: (prior mean x prior weight + successes) / (prior weight + trials); a textbook formula.
TEST_CASE("Rates learned from confirmed vehicles are the pack's own rates updated by the counts", "[learn]") {
  const Tables& t = pack("aldermoor-carrier");
  std::vector<Inspection> confirmed;
  for (int i = 0; i < 30; ++i) {
    const std::string grille = i < 6 ? R"(value="mesh" confirmed="changed")" : R"(value="nine-bars" confirmed="as-built")";
    const std::string gearbox = i < 10 ? "changed" : "as-built";
    confirmed.push_back(inspection_from_text("<inspection format=\"1\"><observed feature=\"grille\" " + grille + "/><observed feature=\"gear-lever\" value=\"long\" confirmed=\"" + gearbox +
                                             "\"/><observed feature=\"gearbox-casing\" value=\"smooth\" confirmed=\"" + gearbox + "\"/></inspection>"));
  }
  const LearnedRates rates = learn_rates(t, confirmed, 20);
  CHECK(rates.vehicles == 30);
  const double prior = t.features[t.feature_index.at("grille")].altered;
  CHECK(rates.altered.at("grille").rate == Approx((prior * 20 + 6) / 50));
  CHECK(rates.replaced.at("gearbox").rate == Approx((0.2 * 20 + 10) / 50));  // the pack says 0.2
  CHECK(rates.altered.at("gear-lever").n == 20);                             // the ten replaced ones say nothing of the lever by itself

  Diagnostics d;
  Tables changed = t;
  apply_rates(changed, read_rates(write_rates(rates), "rates.json", d), "rates.json", d);
  INFO(messages(d));
  CHECK_FALSE(d.has_errors());
  CHECK(changed.features[t.feature_index.at("grille")].altered == Approx((prior * 20 + 6) / 50));
}

TEST_CASE("What was learned of panels goes to the panels that nobody counted, and what kinds they became to the share from outside", "[learn]") {
  const Tables& t = pack("aldermoor-carrier");
  std::vector<Inspection> confirmed;
  for (int i = 0; i < 30; ++i) {
    const std::string grille = i < 6 ? R"(value="other" confirmed="changed")" : R"(value="nine-bars" confirmed="as-built")";
    confirmed.push_back(inspection_from_text("<inspection format=\"1\"><observed feature=\"grille\" " + grille + "/></inspection>"));
  }
  const LearnedRates rates = learn_rates(t, confirmed, 20);
  CHECK(rates.classes.at("panel").rate == Approx((0.05 * 20 + 6) / 50));   // lib/handbook/classes-of-change.md has 0.05
  CHECK(rates.foreign.at("grille").rate == Approx((0.15 * 20 + 6) / 26));  // of six changes all to another kind; the pack says 0.15
  Diagnostics d;
  Tables changed = t;
  apply_rates(changed, read_rates(write_rates(rates), "rates.json", d), "rates.json", d);
  INFO(messages(d));
  CHECK_FALSE(d.has_errors());
  CHECK(changed.features[t.feature_index.at("door-handles")].altered == Approx((0.05 * 20 + 6) / 50));  // a panel, on no vehicle counted
  CHECK(changed.features[t.feature_index.at("bonnet-badge")].altered == t.features[t.feature_index.at("bonnet-badge")].altered);
}

TEST_CASE("Vehicles on which everything was changed teach that many are altered wholesale", "[learn]") {
  const Tables& t = pack("aldermoor-carrier");
  const std::vector<std::string> features{"grille", "bonnet-badge", "indicators", "rear-lamps", "door-handles", "starter", "wheel-rims", "wipers"};
  const auto taught = [&](const char* found) {
    std::string lines;
    for (const std::string& f : features) lines += "<observed feature=\"" + f + "\" value=\"other\" confirmed=\"" + found + "\"/>";
    return learn_rates(t, std::vector<Inspection>(40, inspection_from_text("<inspection format=\"1\">" + lines + "</inspection>")), 20).alteration;
  };
  const std::vector<double> changed = taught("changed"), kept = taught("as-built");
  REQUIRE(changed.size() == 4);
  CHECK(changed[3] > 0.6);               // 40 of 60 are wholesale for sure, nearly
  CHECK(kept[0] > t.rates.alteration_share[0]);
  CHECK(kept[3] < t.rates.alteration_share[3]);
  CHECK(changed[0] + changed[1] + changed[2] + changed[3] == Approx(1));
}

TEST_CASE("A file that holds no rates, or another family's, is refused", "[learn]") {
  for (const char* text : {"", "{}", "[1]", R"({"format":3})", R"({"format":2})", R"({"format":1,"family":"x","pack_version":"1","vehicles":1,"prior_vehicles":20,"altered":{"a":{"rate":7,"n":1,"changed":0}},"replaced":{},"changes":{}})"}) {
    Diagnostics d;
    read_rates(text, "rates.json", d);
    INFO(text);
    CHECK(messages(d).find("rates.json: this is no rates file") == 0);
  }
  Diagnostics d;
  Tables t = pack("aldermoor-carrier");
  LearnedRates other;
  other.family = "another";
  apply_rates(t, other, "rates.json", d);
  CHECK(d.has_errors());
}
