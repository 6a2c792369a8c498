#include <nlohmann/json.hpp>

#include "support.hpp"
#include "mistakes.hpp"

/// The command as a person meets it: exit codes, help, what goes to which stream, JSON. Exit codes: 0 done, 1 the answer of a
/// check is no, 2 bad usage, 3 bad input, 4 can't read or write.
using namespace exworks::test;
using Json = nlohmann::json;

namespace {

const std::vector<std::string> verbs{"assess", "number", "next", "trial", "pack check", "pack test", "pack show"};

std::string sample(const std::string& name) { return (source_dir() / "sample-vehicles" / name).string(); }
std::string aldermoor() { return (rules_dir() / "aldermoor-carrier").string(); }

/// A folder of two packs: the Aldermoor Carrier, and a small one called trial.
std::string two_packs(const TemporaryFolder& folder) {
  for (const char* part : {"aldermoor-carrier", "common"}) fs::copy(rules_dir() / part, folder.path() / part, fs::copy_options::recursive);
  folder.write("trial/pack.xml", faultless);
  return folder.path().string();
}

void check_done(const std::string& arguments) {
  INFO("exworks " << arguments);
  const Run run = exworks::test::exworks(arguments);
  CHECK(run.exit_code == 0);
  CHECK(run.err.empty());
  CHECK_FALSE(run.out.empty());
}

/// Nothing on standard output; on standard error what this contains.
void check_refused(const std::string& arguments, int exit_code, const std::string& told) {
  INFO("exworks " << arguments);
  const Run run = exworks::test::exworks(arguments);
  CHECK(run.exit_code == exit_code);
  CHECK(run.out.empty());
  INFO(run.err);
  CHECK(run.err.find(told) != std::string::npos);
}

Json json_of(const std::string& arguments, int exit_code = 0) {
  INFO("exworks " << arguments);
  const Run run = exworks::test::exworks(arguments);
  CHECK(run.exit_code == exit_code);
  INFO(run.err);
  const Json json = Json::parse(run.out, nullptr, false);
  REQUIRE_FALSE(json.is_discarded());
  return json;
}

}  // namespace

TEST_CASE("Every verb's help shows an example and the exit codes", "[command]") {
  for (const std::string& verb : verbs) {
    INFO(verb);
    const Run run = exworks::test::exworks(verb + " --help");
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK(run.out.find("Example: exworks " + verb) != std::string::npos);
    for (const char* code : {"0 done", "1 the answer of a check is no", "2 bad usage", "3 bad input", "4 can't read or write"}) CHECK(run.out.find(code) != std::string::npos);
  }
  const Run all = exworks::test::exworks("--help");
  for (const char* verb : {"assess", "number", "next", "trial", "pack"}) CHECK(all.out.find(verb) != std::string::npos);
  CHECK(exworks::test::exworks("--version").out.starts_with("exworks "));
}

TEST_CASE("Done is 0, with the answer on standard output and nothing on standard error", "[command]") {
  check_done("assess " + sample("carrier-assembled-from-a-kit.xml"));
  check_done("assess - <" + sample("carrier-assembled-from-a-kit.xml"));
  check_done("next " + sample("carrier-seen-from-the-road.xml"));
  check_done("number --family aldermoor-carrier 'AC V 8205'");
  check_done("trial --family aldermoor-carrier -n 3");
  check_done("pack check " + aldermoor());
  check_done("pack test " + aldermoor());
  check_done("pack show " + aldermoor());
}

TEST_CASE("An unfavourable verdict is still 0", "[command]") {
  const Run run = exworks::test::exworks("assess " + sample("carrier-number-and-vehicle-disagree.xml"));
  CHECK(run.exit_code == 0);
  CHECK(run.out.find("Whether the number is this vehicle's own can't be told") != std::string::npos);
  CHECK(run.out.find("Taken that the number is not the vehicle's own") != std::string::npos);
}

TEST_CASE("A check whose answer is no is 1", "[command]") {
  const TemporaryFolder folder;
  folder.write("trial/pack.xml", with_edit(faultless, "weight=\"5\"", "weight=\"50\""));
  const Run check = exworks::test::exworks("pack check " + (folder.path() / "trial").string());
  CHECK(check.exit_code == 1);
  CHECK(check.out.find("trial/pack.xml:19:48: '50' can't be 'weight'") != std::string::npos);
  CHECK(check.out.find("1 error, 0 warnings, 0 notes") != std::string::npos);

  check_refused("number --family aldermoor-carrier 'QQ 17'", 1, "no pack reads 'QQ 17'");

  folder.write("right/pack.xml", with_edit(faultless, "id=\"trial\"", "id=\"right\""));
  folder.write("right/reference/one.xml", R"(<inspection format="1"><observed feature="lamps" value="low"/><expect generation="two" source="BOOK"/></inspection>)");
  const Run test = exworks::test::exworks("pack test " + (folder.path() / "right").string());
  CHECK(test.exit_code == 1);
  CHECK(test.out.find("NOT MET one.xml") != std::string::npos);
}

TEST_CASE("Bad usage is 2, and sends to the help", "[command]") {
  for (const char* arguments : {"", "frobnicate", "assess --famly x y", "number", "next --for everything x.xml", "next --minutes -3 x.xml", "trial", "trial --family aldermoor-carrier -n 0",
                                "pack", "pack mend x", "pack check"}) {
    check_refused(arguments, 2, "--help");
  }
  check_refused("assess", 2, "name the inspection to assess");
  check_refused("assess " + sample("carrier-seen-from-the-road.xml") + " --given colour=red", 2, "'colour=red' is no condition");
  check_refused("next - </dev/null --family aldermoor-carrier --most 0", 2, "--help");
}

TEST_CASE("Bad input is 3, with the place in the file", "[command]") {
  const TemporaryFolder folder;
  const auto job = [&](const std::string& text) { return folder.write("job.xml", text).string(); };
  check_refused("assess " + job(R"(<inspection format="1" family="aldermoor-carrier"><observed feature="grile" value="nine-bars"/></inspection>)"), 3,
                "job.xml:1:61: pack 'aldermoor-carrier' has no feature 'grile'; did you mean 'grille'?");
  check_refused("next " + job("<inspection format=\"1\" family=\"aldermoor-carrier\">\n<observd/>\n</inspection>"), 3, "job.xml:2:1: element 'observd'");
  check_refused("assess " + job(""), 3, "job.xml:1:1: there is no element in the file");
  check_refused("assess - </dev/null", 3, "standard input:1:1: there is no element in the file");
  check_refused("assess " + job(std::string("\x7F" "ELF\x02\x01\x01\0\0\0\xFF\xFE", 12)), 3, "job.xml:1:5: this byte is not UTF-8 text; save the file as UTF-8");
  std::string nested;
  for (int i = 0; i < 64; ++i) nested += "<note>\n";
  for (int i = 0; i < 64; ++i) nested += "</note>\n";
  // The root is the first element deep; the 32nd note is the 33rd, on line 33.
  check_refused("assess " + job("<inspection format=\"1\">\n" + nested + "</inspection>"), 3, "job.xml:33:1: elements are nested deeper than 32");

  folder.write("trial/pack.xml", with_edit(faultless, "weight=\"5\"", "weight=\"50\""));
  const std::string rules = " --rules " + folder.path().string();
  check_refused("assess --family trial" + rules + " " + job("<inspection format=\"1\"/>"), 3, "pack.xml:19:48: '50' can't be 'weight'");
  check_refused("number --family trial V1" + rules, 3, "pack.xml:19:48");
  check_refused("trial --family trial" + rules, 3, "pack.xml:19:48");
  for (const char* verb : {"pack test ", "pack show "}) check_refused(verb + (folder.path() / "trial").string(), 3, "pack.xml:19:48");
}

TEST_CASE("What can't be read or written is 4, with the name and a remedy", "[command]") {
  const TemporaryFolder folder;
  const std::string nothing = (folder.path() / "nothing.xml").string();
  for (const char* verb : {"assess ", "next "}) {
    check_refused(verb + nothing, 4, "nothing.xml: there is no such file; check the name and the folder");
    check_refused(verb + folder.path().string(), 4, ": this is a folder; name a file in it");
  }
  check_refused("pack check " + nothing, 4, "nothing.xml: there is no such folder; name the folder of a pack");
  check_refused("pack check " + folder.path().string(), 4, "pack.xml: there is no such file; a pack's folder holds a pack.xml");
  check_refused("assess --family aldermor-carrier " + sample("carrier-seen-from-the-road.xml"), 4, "did you mean 'aldermoor-carrier'?");
  check_refused("number --rules " + nothing + " V1", 4, "there is no such folder; name the folder that holds the packs, with --rules");
  check_refused("trial --family aldermoor-carrier -n 3 --svg " + nothing + "/plot.svg", 4, "can't be written");
}

TEST_CASE("An assessment as JSON has what other programs ask of it", "[command]") {
  const Json a = json_of("assess --json " + sample("carrier-gearbox-from-a-later-van.xml"));
  CHECK(a.at("family") == "aldermoor-carrier");
  CHECK(a.at("pack_version").is_string());
  CHECK(a.at("vehicle").is_string());
  for (const char* list : {"builds", "generation", "variant", "market", "features", "cautions"}) {
    INFO(list);
    CHECK(a.at(list).is_array());
    if (list != std::string("cautions")) CHECK_FALSE(a.at(list).empty());
  }
  for (const char* axis : {"generation", "variant", "market"}) {
    double sum = 0;
    for (const Json& one : a.at(axis)) sum += one.at("p").get<double>();
    CHECK(sum == Approx(1));
  }
  const Json& date = a.at("build_date");
  CHECK(date.at("level") == 0.9);
  CHECK(date.at("from").get<std::string>().size() == 7);
  CHECK(date.at("from") <= date.at("most_likely"));
  CHECK(date.at("most_likely") <= date.at("to"));
  for (const Json& f : a.at("features")) {
    const std::string verdict = f.at("verdict");
    CHECK((verdict == "original type" || verdict == "original" || verdict == "later change" || verdict == "uncertain"));
    CHECK(f.at("id").is_string());
    CHECK((f.at("p_type") >= 0.0 && f.at("p_type") <= 1.0));
  }
  const Json& score = a.at("score");
  CHECK(score.at("low") <= score.at("value"));
  CHECK(score.at("value") <= score.at("high"));
  CHECK((score.at("coverage") >= 0.0 && score.at("coverage") <= 1.0));
  CHECK((a.at("fit").at("p") >= 0.0 && a.at("fit").at("p") <= 1.0));
  CHECK(a.at("fit").at("note").is_string());
}

TEST_CASE("Every verb that answers in JSON prints one document and nothing else", "[command]") {
  CHECK(json_of("next --json " + sample("carrier-seen-from-the-road.xml")).at("checks").is_array());
  CHECK(json_of("number --json --family aldermoor-carrier 'AC V 82O5'").at(0).at("forgiven").size() == 1);
  CHECK(json_of("number --json --family aldermoor-carrier 'QQ 17'", 1).empty());
  CHECK(json_of("trial --json --family aldermoor-carrier -n 3").at("n") == 3);
  CHECK(json_of("pack check --json " + aldermoor()).at("errors") == 0);
  CHECK(json_of("pack test --json " + aldermoor()).at("not_met") == 0);
  CHECK(json_of("pack show --json " + aldermoor()).at("features").size() > 10);
  const TemporaryFolder folder;
  folder.write("trial/pack.xml", with_edit(faultless, "weight=\"5\"", "weight=\"50\""));
  const Json check = json_of("pack check --json " + (folder.path() / "trial").string(), 1);
  CHECK(check.at("errors") == 1);
  CHECK(check.at("diagnostics").at(0).at("line") == 19);
  CHECK(check.at("diagnostics").at(0).at("column") == 48);
}

TEST_CASE("Without a family every pack is tried, and the best is named", "[command]") {
  const TemporaryFolder folder;
  const std::string rules = "--rules " + two_packs(folder);
  const std::string job = folder.write("job.xml", R"(<inspection format="1"><number id="chassis-number" text="AC V 8205"/><observed feature="windscreen" value="two-panes"/>
<observed feature="rear-lamps" value="small-glass"/><observed feature="body-style" value="van"/></inspection>)").string();
  const Run run = exworks::test::exworks("assess --json " + rules + " " + job);
  CHECK(run.exit_code == 0);
  CHECK(run.err.find("'aldermoor-carrier' fits best") != std::string::npos);
  CHECK(Json::parse(run.out).at("family") == "aldermoor-carrier");
  check_refused("next " + job, 2, "the inspection names no family");
}

TEST_CASE("A vehicle that no pack fits is told so, and is no fault", "[command]") {
  const TemporaryFolder folder;
  const std::string rules = "--rules " + two_packs(folder);
  const std::string job = folder.write("job.xml", R"(<inspection format="1"><number id="hull-number" text="ZZ 9"/><observed feature="propeller" value="three-blades"/>
<observed feature="rudder" value="wood"/><observed feature="mast" state="missing"/></inspection>)").string();
  const Run run = exworks::test::exworks("assess " + rules + " " + job);
  CHECK(run.exit_code == 0);
  CHECK(run.err.empty());
  CHECK(run.out.starts_with("None of the packs fits this vehicle."));
  const Json json = json_of("assess --json " + rules + " " + job);
  CHECK(json.at("family").is_null());
  CHECK(json.at("families").size() == 3);
}
