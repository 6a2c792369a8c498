#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "support.hpp"

/// Private packs as a workshop uses them, and what `pack check` says to whoever wants to publish.
using namespace exworks;
using namespace exworks::test;

namespace {

/// Packs in ~/.local/share/exworks/rules, as long as the object lives.
class PrivateRules {
 public:
  PrivateRules() {
    if (const char* before = std::getenv("XDG_DATA_HOME")) before_ = before;
    setenv("XDG_DATA_HOME", folder_.path().c_str(), 1);
  }
  ~PrivateRules() {
    if (before_) setenv("XDG_DATA_HOME", before_->c_str(), 1);
    else unsetenv("XDG_DATA_HOME");
  }
  PrivateRules(const PrivateRules&) = delete;
  PrivateRules& operator=(const PrivateRules&) = delete;
  fs::path write(const std::string& name, const std::string& text) const { return folder_.write("exworks/rules/" + name + "/pack.xml", text); }

 private:
  TemporaryFolder folder_;
  std::optional<std::string> before_;
};

/// The example of rules/FORMAT.md, without its tow hook.
std::string example(const std::string& id) {
  return "<pack format=\"1\" id=\"" + id + R"(" name="Carriers, with our notes" version="7" status="invented" extends="aldermoor-carrier">
  <source id="OURS" kind="published" title="Workshop diary" publisher="Hill Garage" year="2025"/>
  <add feature="headlamp-position">
    <value id="bar" name="on a bar">A bar across the grille carries them.</value>
    <fact value="bar" variants="s2-van" fitted="option" share="0.1" source="OURS"/>
    <fact value="low" overrides="low" reason="Two vans of January 1959 have low lamps." generations="s1 s2" markets="!northland" to="1959-02" source="OURS"/>
    <fact value="high" overrides="high@1958-09" reason="As above." generations="s1 s2" markets="!northland" from="1959-02" source="OURS"/>
  </add>
</pack>
)";
}

const std::string sample = (source_dir() / "sample-vehicles/carrier-seen-from-the-road.xml").string();

}  // namespace

TEST_CASE("A private pack is found by its name, and the report names both editions", "[cli][private]") {
  const PrivateRules rules;
  rules.write("our-carriers", example("our-carriers"));
  const Run text = test::exworks("assess --family our-carriers --quick --jsonl " + sample);
  INFO(text.err);
  REQUIRE(text.exit_code == 0);
  const auto json = nlohmann::json::parse(text.out);
  CHECK(json["family"] == "our-carriers");
  CHECK(json["pack_version"] == "7");
  REQUIRE(json["extends"].size() == 1);
  CHECK(json["extends"][0]["family"] == "aldermoor-carrier");
  CHECK(json["extends"][0]["pack_version"] == pack("aldermoor-carrier").version);
  CHECK(json["extends"][0]["pack_digest"] == pack("aldermoor-carrier").digest);
  CHECK(fold_space(test::exworks("assess --family our-carriers " + sample).out).find("pack our-carriers 7 (extends aldermoor-carrier 1)") != std::string::npos);
}

TEST_CASE("A private pack of the same name stands in for the one it extends", "[cli][private]") {
  const PrivateRules rules;
  rules.write("aldermoor-carrier", example("aldermoor-carrier"));
  const Run run = test::exworks("pack show aldermoor-carrier");
  CHECK(run.err.empty());
  CHECK(run.out.find("pack aldermoor-carrier 7 (extends aldermoor-carrier 1)") != std::string::npos);
  // --rules names the installed ones alone.
  CHECK(test::exworks("pack show aldermoor-carrier --rules " + rules_dir().string()).out.find("extends") == std::string::npos);
}

TEST_CASE("The verbs of pack work on a private one", "[cli][private]") {
  const PrivateRules rules;
  rules.write("our-carriers", example("our-carriers"));
  const Run check = test::exworks("pack check our-carriers");
  INFO(check.out + check.err);
  CHECK(check.exit_code == 0);
  CHECK(check.out == "our-carriers: 0 errors, 0 warnings, 0 notes\n");
  const Run explain = test::exworks("pack explain headlamp-position --family our-carriers --market home");
  CHECK(explain.exit_code == 0);
  CHECK(fold_space(explain.out).find("In place of what aldermoor-carrier 1 says (low): Two vans of January 1959 have low lamps.") != std::string::npos);
  CHECK(explain.out.find("Hill Garage") != std::string::npos);
  const auto diff = nlohmann::json::parse(test::exworks("pack diff aldermoor-carrier our-carriers --json").out);
  std::size_t headlamps = 0;
  for (const auto& d : diff["differences"]) headlamps += d["id"] == "headlamp-position";
  CHECK(headlamps == 4);  // a new value, its fact, and the two that are overridden
  // Its vehicles are those of the base: none was of the months in question.
  const auto tested = nlohmann::json::parse(test::exworks("pack test our-carriers --json").out);
  CHECK(tested["met"] == 8);
  CHECK(tested["vehicles"][0]["of"] == "aldermoor-carrier");
}

TEST_CASE("Where every pack is tried, one that is extended does not stand beside its extension", "[cli][private]") {
  const PrivateRules rules;
  rules.write("our-carriers", example("our-carriers"));
  const auto read = nlohmann::json::parse(test::exworks("number 'AC2 V 31205 K' --json").out);
  REQUIRE(read.size() == 1);
  CHECK(read[0]["family"] == "our-carriers");
}

TEST_CASE("pack check --strict says whether a pack is fit to publish", "[cli][private]") {
  const PrivateRules rules;
  const std::string draft = example("our-carriers");
  const fs::path file = rules.write("our-carriers", draft);
  const Run fit = test::exworks("pack check --strict our-carriers");
  INFO(fit.out + fit.err);
  CHECK(fit.exit_code == 0);
  CHECK(fit.out == "our-carriers: 0 errors, 0 warnings, 0 notes; fit to publish\n");
  const std::string::size_type text = draft.find("A bar across the grille carries them.");
  rules.write("our-carriers", draft.substr(0, text) + draft.substr(text + 37));
  const Run unfit = test::exworks("pack check --strict our-carriers");
  CHECK(unfit.exit_code == 1);
  CHECK(unfit.out == file.string() + ":4:5: warning: value 'bar' of feature 'headlamp-position' does not say how to recognise it; write it between the tags, for someone new to the family\n"
                     "our-carriers: 0 errors, 1 warning, 0 notes; not yet fit to publish\n");
  CHECK(test::exworks("pack check our-carriers").exit_code == 0);
  const Run alone = test::exworks("pack check --since old our-carriers");
  CHECK(alone.exit_code == 2);
  CHECK(alone.err == "--since goes with --strict; add it\n");
}

TEST_CASE("Twenty messages are shown, the gravest, and how many more there are", "[cli][private]") {
  const TemporaryFolder folder;
  std::string text = "<pack format=\"1\" id=\"trial\" name=\"Trial\" version=\"1\" status=\"invented\">\n";
  for (int i = 0; i < 25; ++i) text += "<market id=\"M" + std::to_string(i) + "\" name=\"Market\"/>\n";
  folder.write("trial/pack.xml", text + "</pack>\n");
  const std::string trial = (folder.path() / "trial").string();
  const auto lines = [](const std::string& out) { return std::count(out.begin(), out.end(), '\n'); };
  const Run run = test::exworks("pack check " + trial);
  CHECK(run.exit_code == 1);
  CHECK(lines(run.out) == 22);
  CHECK(run.out.find("trial/pack.xml:21:9: 'M19' is no id") != std::string::npos);
  CHECK(run.out.find("and 5 more; --all shows them\n" + trial + ": 25 errors, 0 warnings, 0 notes\n") != std::string::npos);
  CHECK(lines(test::exworks("pack check --all " + trial).out) == 26);
  CHECK(nlohmann::json::parse(test::exworks("pack check --json " + trial).out)["diagnostics"].size() == 25);
  const Run show = test::exworks("pack show " + trial);
  CHECK(show.exit_code == 3);
  CHECK(lines(show.err) == 21);
  CHECK(show.err.ends_with("and 5 more\n"));
}
