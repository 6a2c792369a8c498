#include <chrono>

#include "pack/model/limits.hpp"
#include "support.hpp"

/// A pack beyond what can be computed is refused with a message, before time or memory goes into it.
using namespace exworks;
using namespace exworks::test;

namespace {

/// `markets` x `plants` x two variants x sixty years.
std::string wide_pack(int markets, int plants) {
  std::string xml = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <source id="trade" kind="common-practice" title="common practice, no source"/> <place id="front" name="Front"/>)";
  for (int m = 0; m < markets; ++m) xml += "<market id='m" + std::to_string(m) + "' name='Market " + std::to_string(m) + "'/>";
  for (int p = 0; p < plants; ++p) xml += "<plant id='p" + std::to_string(p) + "' name='Plant " + std::to_string(p) + "'/>";
  xml += "<generation id='g' name='G'/> <body id='van' name='van'/>";
  for (const char* v : {"a", "b"}) {
    xml += "<variant id='" + std::string(v) + "' name='" + v + "' generation='g' body='van' markets='*' plants='*' from='1920-01' to='1979-12' source='trade'/>";
  }
  return xml + "<feature id='lamp' name='Lamp' place='front'><value id='a' name='a'/><fact value='a' source='trade'/></feature></pack>";
}

Pack read(const TemporaryFolder& folder, const std::string& xml) {
  folder.write("trial/pack.xml", xml);
  Diagnostics d;
  auto pack = read_pack(folder.path() / "trial", d);
  INFO(messages(d));
  REQUIRE(pack);
  return std::move(*pack);
}

/// The two variants in all markets from all plants: 2 x 720 months each.
std::string too_many(int markets, int plants) {
  return "the pack has " + std::to_string(1440 * markets * plants) + " builds (variant x market x plant x month); stay below 200000: merge markets that no fact tells apart";
}

}  // namespace

TEST_CASE("A pack of too many builds is refused by the compiler and by the check, at once", "[packs]") {
  const TemporaryFolder folder;
  const Pack pack = read(folder, wide_pack(250, 250));  // 90 million builds: gigabytes, were they made
  const auto begun = std::chrono::steady_clock::now();
  Diagnostics compiled, checked;
  CHECK_FALSE(compile(pack, compiled));
  check_pack(pack, checked);
  CHECK(messages(compiled).find(too_many(250, 250)) != std::string::npos);
  CHECK(messages(checked) == messages(compiled));
  CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(10));
}

TEST_CASE("Whoever asks for a judgement by such a pack is told, and none is given", "[packs][cli]") {
  const TemporaryFolder folder;
  const std::string rules = folder.write("trial/pack.xml", wide_pack(250, 250)).parent_path().parent_path().string();
  const std::string vehicle = folder.write("v.xml", R"(<inspection format="1" family="trial"><observed feature="lamp" value="a"/></inspection>)").string();
  const std::pair<std::string, int> verbs[] = {{"assess --rules " + rules + " " + vehicle, 3}, {"pack show --rules " + rules + " trial", 3}, {"pack check " + rules + "/trial", 1}};
  for (const auto& [verb, exit_code] : verbs) {
    const Run r = exworks::test::exworks(verb);
    INFO(verb << ": " << r.err);
    CHECK(r.exit_code == exit_code);
    CHECK((r.err + r.out).find(too_many(250, 250)) != std::string::npos);
    CHECK(r.out.size() < 2000);
  }
}

TEST_CASE("An axis beyond its limit is refused, however the pack was made", "[packs]") {
  Pack pack;
  pack.folder = "made";
  pack.bodies.resize(axis_limit + 1);
  Diagnostics d;
  CHECK_FALSE(within_limits(pack, d));
  CHECK(messages(d) == "made: an axis of the pack has 257 members; stay below 257: merge those that no fact tells apart\n");
}

// 8 shared facts that begin in windows of their own: every month of every combination of markets has other shares.
TEST_CASE("A feature of more states than an index can tell apart is refused, not wrapped round", "[packs]") {
  const TemporaryFolder folder;
  std::string xml = R"(<pack format="1" id="trial" name="Trial" version="1" status="invented">
  <source id="trade" kind="common-practice" title="common practice, no source"/> <place id="front" name="Front"/>)";
  constexpr int markets = 140;
  for (int m = 0; m < markets; ++m) xml += "<market id='m" + std::to_string(m) + "' name='Market " + std::to_string(m) + "'/>";
  xml += R"(<plant id="works" name="Works"/> <generation id="g" name="G"/> <body id="van" name="van"/>
    <variant id="a" name="A" generation="g" body="van" markets="*" plants="*" from="1930-01" to="1979-12" source="trade"/>
    <feature id="lamp" name="Lamp" place="front"><value id="a" name="a"/><value id="b" name="b"/>)";
  for (int m = 0; m < markets; ++m) {
    // A window over all months: a share of its own in each, and the last year of it tells the markets apart.
    const std::string scope = "' markets='m" + std::to_string(m) + "' source='trade'/>", window = "[1930-01.." + std::to_string(1980 + m) + "-12]";
    xml += "<fact value='a' to='" + window + scope + "<fact value='b' from='" + window + scope;
  }
  const Pack pack = read(folder, xml + "</feature></pack>");
  Diagnostics d;
  CHECK_FALSE(compile(pack, d));
  CHECK(messages(d).find("'lamp' has more than 65536 different states over the months and vehicles of the pack; write its facts with fewer scopes") != std::string::npos);
}
