#include <cstdlib>

#include "mistakes.hpp"
#include "pack/check/publish_checks.hpp"

/// Packs of a workshop's own that extend another: what they say, and what their authors are told.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string ours = R"(<pack format="1" id="ours" name="Ours" version="3" status="invented" extends="trial">
<source id="DIARY" kind="published" title="Diary" publisher="Garage" year="2025"/>
<variant id="two-long" name="Series 2 long van" generation="two" body="van" plants="works" from="1956-01" to="1957-12" source="DIARY"/>
<add feature="lamps">
  <value id="bar" name="on a bar"/>
  <fact value="bar" generations="two" fitted="option" share="0.1" source="DIARY"/>
  <fact value="low" overrides="low" reason="Seen." to="1953-03" source="DIARY"/>
  <fact value="high" overrides="high@1953-01" reason="Seen too." from="1953-03" source="DIARY">Two vans.</fact>
  <later id="bar-added" value="bar" name="bar added" source="DIARY">Holes.</later>
</add>
<feature id="hook" name="Tow hook" place="front">
  <value id="none" name="none"/>
  <fact value="none" source="DIARY"/>
</feature>
</pack>
)";

struct Found {
  std::optional<Pack> pack;
  Diagnostics diagnostics;
};

/// Reads mine/ours, which extends base/trial; messages name the files so.
Found read_ours(const std::string& text, const std::string& base = faultless) {
  TemporaryFolder folder;
  folder.write("base/trial/pack.xml", base);
  folder.write("mine/ours/pack.xml", text);
  const fs::path before = fs::current_path();
  fs::current_path(folder.path());
  Found out;
  out.pack = read_pack("mine/ours", out.diagnostics, {"base"});
  if (out.pack) check_pack(*out.pack, out.diagnostics);
  fs::current_path(before);
  return out;
}

std::string told(const std::string& was, const std::string& is) { return messages(read_ours(with_edit(ours, was, is)).diagnostics); }

/// The two packs written as one by hand: what extending must come to.
std::string as_one() {
  std::string text = with_edit(faultless, R"(<fact value="low" to="1953-01" source="BOOK"/>)", R"(<fact value="low" to="1953-03" source="BOOK"/>)");
  text = with_edit(text, R"(<fact value="high" from="1953-01" source="BOOK"/>)",
                   R"(<value id="bar" name="on a bar"/> <fact value="high" from="1953-03" source="BOOK"/> <fact value="bar" generations="two" fitted="option" share="0.1" source="BOOK"/>
                   <later id="bar-added" value="bar" name="bar added" source="BOOK">Holes.</later>)");
  text = with_edit(text, "<volume", R"(<variant id="two-long" name="Series 2 long van" generation="two" body="van" plants="works" from="1956-01" to="1957-12" source="BOOK"/><volume)");
  return with_edit(text, R"(<later id="other-box")", R"(<feature id="hook" name="Tow hook" place="front"><value id="none" name="none"/><fact value="none" source="BOOK"/></feature><later id="other-box")");
}

const std::vector<Mistake> mistakes{
    {"a base that is not there", R"(extends="trial")", R"(extends="trail")",
     "mine/ours/pack.xml:1:70: there is no pack 'trail' to extend in mine and base; did you mean 'trial'?"},
    {"a base without a name", R"(extends="trial")", R"(extends="")",
     "mine/ours/pack.xml:1:70: 'extends' is empty; write its text"},
    {"an addition to a feature that is not there", R"(<add feature="lamps">)", R"(<add feature="lmaps">)",
     "mine/ours/pack.xml:4:6: there is no feature 'lmaps'; did you mean 'lamps'?"},
    {"an addition to nothing", R"(<add feature="lamps">)", "<add>",
     R"(mine/ours/pack.xml:4:1: 'add' needs the attribute 'feature'; write feature="...")"},
    {"an addition of nothing", R"(<feature id="hook")", R"(<add feature="casing"/><feature id="hook")",
     "mine/ours/pack.xml:11:1: this adds nothing; write value, fact, legal or later lines inside"},
    {"an attribute that an addition can't have", R"(<add feature="lamps">)", R"(<add feature="lamps" weight="3">)",
     "mine/ours/pack.xml:4:22: 'add' has no attribute 'weight'; it may have feature"},
    {"a question for a feature that asks already", R"(<value id="bar" name="on a bar"/>)", R"(<value id="bar" name="on a bar"/><ask>Where?</ask>)",
     "mine/ours/pack.xml:5:36: element 'ask' is not known here; use one of value, values, alike, fact, legal and later"},
    {"a value that the base has", R"(<later id="bar-added")", R"(<value id="low" name="low"/><later id="bar-added")",
     "mine/ours/pack.xml:9:3: value 'low' is given twice; rename one; the first is at base/trial/pack.xml:20:3"},
    {"a fact that is not there to override", R"(overrides="high@1953-01")", R"(overrides="high@1953-02")",
     "mine/ours/pack.xml:8:22: feature 'lamps' has no fact 'high@1953-02' to override; its facts are low, high@1953-01 and bar"},
    {"an override without a reason", R"( reason="Seen.")", "",
     R"(mine/ours/pack.xml:7:21: this overrides a line of another pack without saying why; write reason="..."; reports show it)"},
    {"a reason for nothing", R"(<fact value="bar")", R"(<fact value="bar" reason="Seen.")",
     R"(mine/ours/pack.xml:6:21: there is a reason but nothing is overridden; write overrides="..." too, or put the reason into the text)"},
    {"an override outside an addition", R"(<fact value="none" source)", R"(<fact value="none" overrides="none" source)",
     "mine/ours/pack.xml:13:22: 'fact' has no attribute 'overrides'; it may have id, value, from, to, from-number, to-number, fitted, share, source, disputed, generations, variants, bodies, markets and plants"},
    {"two facts of one id", R"(<fact value="bar")", R"(<fact id="one" value="low" generations="one" fitted="option" share="0.1" source="DIARY"/><fact id="one" value="bar")",
     "mine/ours/pack.xml:6:92: fact 'one' of this feature is given twice; rename one"},
    {"a feature that is not there to override", R"(<feature id="hook")", R"(<feature overrides="hok" reason="Seen." id="hook")",
     "mine/ours/pack.xml:11:10: pack 'trial' has no feature 'hok' to override; see exworks pack show trial"},
    {"an override that takes another id", R"(<variant id="two-long")", R"(<variant overrides="two-van" reason="Seen." id="two-long")",
     R"(mine/ours/pack.xml:3:10: this variant overrides 'two-van' but has another id; write id="two-van": other lines refer to it)"},
    {"a variant that the base has", R"(<variant id="two-long")", R"(<variant id="two-van")",
     "mine/ours/pack.xml:3:1: variant 'two-van' is given twice; rename one; the first is at base/trial/pack.xml:14:1"},
    {"a source that the base has", R"(<source id="DIARY")", R"(<source id="BOOK" kind="memory" title="It"/><source id="DIARY")",
     "mine/ours/pack.xml:2:1: source 'BOOK' is given twice; rename one; the first is at base/trial/pack.xml:2:1"},
    {"a fact that contradicts one of the base", R"(<fact value="bar" generations="two" fitted="option" share="0.1")", R"(<fact value="bar" generations="two")",
     "mine/ours/pack.xml:6:3: standard facts 'high' and 'bar' of feature 'lamps' are both in force in Jan 1955 (two-van, home); end one with the edge that begins the other, narrow a scope, or give shares; the other is at mine/ours/pack.xml:8:3"},
    {"tabs", R"(  <value id="none")", "\t\t<value id=\"none\"",
     "mine/ours/pack.xml:12:1: warning: there are 2 tabs in the file, the first here; write spaces instead"},
};

}  // namespace

TEST_CASE("A pack that extends another says what the two would say as one", "[private]") {
  const Found found = read_ours(ours);
  CHECK(messages(found.diagnostics).empty());
  REQUIRE(found.pack);
  Diagnostics d;
  const Tables both = compile(*found.pack, d).value(), one = pack_from_text(as_one());
  CHECK(both.edition() == "ours 3 (extends trial 1)");
  REQUIRE(both.axes.variants.size() == one.axes.variants.size());
  CHECK(both.prior == one.prior);
  // Lamps of a van of 1953 and of 1956, a bar among them, and the number with them.
  for (const std::string lines : {"<observed feature='lamps' value='low'/>", "<observed feature='lamps' value='bar'/><observed feature='casing' value='smooth'/>",
                                  "<observed feature='lamps' value='high'/><observed feature='hook' value='none'/><number id='chassis' text='V 1500'/>"}) {
    const Assessment a = assess_lines(both, lines), b = assess_lines(one, lines);
    CHECK(a.date.from == b.date.from);
    CHECK(a.date.to == b.date.to);
    for (std::size_t v = 0; v < one.axes.variants.size(); ++v) CHECK(odds_of(a.variants, v) == Approx(odds_of(b.variants, v)).epsilon(1e-12));
    for (std::size_t f = 0; f < a.features.size(); ++f) CHECK(a.features[f].finding.p_type == Approx(b.features[f].finding.p_type).epsilon(1e-12));
  }
}

TEST_CASE("What overrides a fact says in place of what, and why", "[private]") {
  const Found found = read_ours(ours);
  REQUIRE(found.pack);
  const Feature& lamps = found.pack->features.front();
  REQUIRE(lamps.facts.size() == 3);
  CHECK(lamps.facts[0].note == "In place of what trial 1 says (low): Seen.");
  CHECK(lamps.facts[1].note == "In place of what trial 1 says (high@1953-01): Seen too. Two vans.");
  CHECK(lamps.facts[1].name == "high@1953-03");
  CHECK(lamps.facts[2].name == "bar");
}

TEST_CASE("The digest of a pack that extends another covers both", "[private]") {
  const std::string digest = read_ours(ours).pack->digest;
  CHECK(read_ours(ours).pack->digest == digest);
  CHECK(read_ours(with_edit(ours, "Holes.", "Two holes."))
            .pack->digest != digest);
  CHECK(read_ours(ours, with_edit(faultless, "altered=\"0.05\"", "altered=\"0.06\"")).pack->digest != digest);
}

TEST_CASE("A whole feature, variant or number may be overridden", "[private]") {
  std::string text = with_edit(ours, R"(<feature id="hook" name="Tow hook" place="front">)", R"(<feature id="casing" overrides="casing" reason="Ours differ." name="Casing" place="front" assembly="gearbox">)");
  text = with_edit(text, R"(<variant id="two-long")", R"(<variant id="two-van" overrides="two-van" reason="Built a year longer.")");
  const Found found = read_ours(text);
  CHECK(messages(found.diagnostics).empty());
  REQUIRE(found.pack);
  CHECK(found.pack->features.size() == 2);
  CHECK(found.pack->features[1].values.size() == 1);
  CHECK(found.pack->variants[1].name == "Series 2 long van");
}

TEST_CASE("An author who extends a pack is told each mistake in full", "[private]") {
  for (const Mistake& m : mistakes) {
    INFO(m.kind);
    CHECK(told(m.was, m.is) == m.told + std::string("\n"));
  }
}

TEST_CASE("A pack that extends none has nothing to add to or to override", "[private]") {
  CHECK(messages(check_text(with_edit(faultless, "<feature id=\"casing\"", "<add feature=\"lamps\"><value id=\"bar\" name=\"bar\"/></add><feature id=\"casing\""))) ==
        "trial/pack.xml:25:1: this pack extends no other, so there is nothing to add to; write the lines inside the feature, or extends=\"...\" on the pack\n");
  CHECK(messages(check_text(with_edit(faultless, "<feature id=\"casing\"", "<feature overrides=\"casing\" reason=\"So.\" id=\"casing\""))) ==
        "trial/pack.xml:25:10: this pack extends no other, so there is nothing to override; change the line itself, or write extends=\"...\" on the pack\n");
}

TEST_CASE("A private pack may bear the name of the one it extends, and none extends itself", "[private]") {
  TemporaryFolder folder;
  folder.write("base/trial/pack.xml", faultless);
  folder.write("mine/trial/pack.xml", with_edit(ours, "id=\"ours\"", "id=\"trial\""));
  Diagnostics d;
  const auto pack = read_pack(folder.path() / "mine/trial", d, {folder.path() / "mine", folder.path() / "base"});
  INFO(messages(d));
  REQUIRE(pack);
  CHECK(pack->extends.front().folder == (folder.path() / "base/trial").string());
  CHECK(pack_folders({folder.path() / "mine", folder.path() / "base"}) == std::vector<fs::path>{folder.path() / "mine/trial"});
  Diagnostics alone;
  CHECK_FALSE(read_pack(folder.path() / "mine/trial", alone, {folder.path() / "mine"}));
  const std::string mine = (folder.path() / "mine").string();
  CHECK(messages(alone) == mine + "/trial/pack.xml:1:71: there is no pack 'trial' to extend in " + mine + "; name an installed pack, or put the two folders side by side\n");
}

TEST_CASE("A pack for others owes its readers more than to be without mistakes", "[private]") {
  const auto owed = [](const std::string& text, const std::vector<std::string>& cited = {}) {
    Found found = read_ours(text);
    INFO(messages(found.diagnostics));
    REQUIRE(found.pack);
    Diagnostics d;
    check_for_publishing(*found.pack, cited, d);
    return messages(d);
  };
  CHECK(owed(with_edit(with_edit(ours, "<add ", "<source id=\"SPARE\" kind=\"memory\" title=\"It\"/><add "), "from=\"1953-03\"", "from=\"1953-03\" disputed=\"yes\"")) ==
        "mine/ours/pack.xml:4:1: warning: nothing cites source 'SPARE'; cite it, or delete it\n"
        "mine/ours/pack.xml:5:3: warning: value 'bar' of feature 'lamps' does not say how to recognise it; write it between the tags, for someone new to the family\n"
        "mine/ours/pack.xml:8:3: warning: this fact is disputed but has one source; cite the source that says otherwise too\n"
        "mine/ours/pack.xml:9:3: warning: later change 'bar-added' does not say how long it takes to put back; write hours=\"...\"\n"
        "mine/ours/pack.xml:11:1: warning: feature 'hook' asks nothing; write <ask>what the inspector should look for</ask>\n"
        "mine/ours/pack.xml:12:3: warning: value 'none' of feature 'hook' does not say how to recognise it; write it between the tags, for someone new to the family\n");
  std::string mended = with_edit(ours, "name=\"on a bar\"/>", "name=\"on a bar\">A bar.</value><!-- -->");
  mended = with_edit(mended, "name=\"bar added\"", "name=\"bar added\" hours=\"2\"");
  mended = with_edit(mended, "<value id=\"none\" name=\"none\"/>", "<ask>Is there a hook?</ask><value id=\"none\" name=\"none\">No holes.</value>");
  CHECK(owed(mended).empty());
  // A source that only the reference vehicles name is cited.
  CHECK(owed(with_edit(mended, "<add ", "<source id=\"SPARE\" kind=\"memory\" title=\"It\"/><add "), {"SPARE"}).empty());
}

TEST_CASE("An edition that says something else has a version of its own", "[private]") {
  const auto versions = [](const std::string& before, const std::string& after) {
    Diagnostics d;
    check_version(*read_ours(after).pack, *read_ours(before).pack, d);
    return messages(d);
  };
  const std::string changed = with_edit(ours, "Holes.", "Two holes.");
  CHECK(versions(ours, ours).empty());
  CHECK(versions(ours, with_edit(changed, "version=\"3\"", "version=\"4\"")).empty());
  CHECK(versions(ours, changed) ==
        "mine/ours/pack.xml:1:1: warning: the files differ from the edition before, and both have version '3'; raise version=\"...\", so that reports tell the two apart\n");
}

TEST_CASE("The grammar for editors knows packs that extend another", "[private]") {
  const auto valid = [](const std::string& text) {
    const TemporaryFolder folder;
    const std::string file = folder.write("pack.xml", text).string();
    return std::system(("xmllint --noout --relaxng '" + (rules_dir() / "schema/pack.rng").string() + "' '" + file + "' >/dev/null 2>&1").c_str()) == 0;
  };
  CHECK(valid(ours));
  CHECK_FALSE(valid(with_edit(ours, " reason=\"Seen.\"", "")));
  CHECK_FALSE(valid(with_edit(ours, "<fact value=\"none\"", "<fact value=\"none\" overrides=\"none\" reason=\"So.\"")));
  CHECK_FALSE(valid(with_edit(ours, "<add feature=\"lamps\">", "<add>")));
}
