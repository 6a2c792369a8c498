#include <algorithm>

#include "report/answers/scheme_report.hpp"
#include "scheme/scheme.hpp"
#include "support.hpp"
#include "assess/questions/scheme_verdict.hpp"

/// Classifications against the worked examples of the research dossier (standards.md 1.8, 2.8, 3.4), each named by its number there.
/// The rules themselves are published: the sources stand in rules/scheme/*.xml.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::vector<Scheme>& schemes() {
  static const std::vector<Scheme> all = [] {
    Diagnostics d;
    auto read = read_schemes(rules_dir() / "scheme", d);
    INFO(messages(d));
    REQUIRE(d.all().empty());
    return read;
  }();
  return all;
}

const Scheme& scheme(const std::string& id) {
  const auto at = std::find_if(schemes().begin(), schemes().end(), [&](const Scheme& s) { return s.id == id; });
  REQUIRE(at != schemes().end());
  return *at;
}

CalendarDay on(int year, int month = 6, int day = 1) { return {Month::of(year, month), day}; }

using Answers = std::vector<std::pair<std::string, std::string>>;  // question, answers that remain; "" for open

SchemeCase given(const Scheme& s, const Answers& answers, CalendarDay built, CalendarDay today) {
  SchemeCase out;
  out.built_from = out.built_to = built;
  out.today = today;
  for (const SchemeQuestion& q : s.questions) {
    std::set<std::size_t> possible;
    const auto said = std::find_if(answers.begin(), answers.end(), [&](const auto& a) { return a.first == q.id; });
    for (std::size_t i = 0; i < q.answers.size(); ++i) {
      const bool rest = said == answers.end() && i == 0;  // what an example doesn't mention is as it should be: the first answer
      if (rest || (said != answers.end() && (said->second.empty() || said->second == q.answers[i].id))) possible.insert(i);
    }
    REQUIRE_FALSE(possible.empty());
    out.possible.push_back(std::move(possible));
  }
  return out;
}

std::vector<std::string> outcomes(const std::string& id, const Answers& answers, CalendarDay built = on(1960), CalendarDay today = on(2024)) {
  const Scheme& s = scheme(id);
  std::vector<std::string> out;
  for (const std::size_t o : classify(s, given(s, answers, built, today)).outcomes) out.push_back(s.outcomes[o].id);
  return out;
}

using Ids = std::vector<std::string>;

std::pair<double, double> points(const Answers& answers) {
  const Scheme& s = scheme("gb-points");
  const Classification c = classify(s, given(s, answers, on(1960), on(2024)));
  return {c.points_low.value(), c.points_high.value()};
}

const std::string other = "other";

}  // namespace

TEST_CASE("The eight points: worked examples UK-1 to UK-7", "[outside][schemes]") {
  const Answers uk1{{"suspension", other}, {"transmission", other}, {"steering", other}};
  CHECK(points(uk1) == std::pair(8.0, 8.0));
  CHECK(outcomes("gb-points", uk1) == Ids{"keeps"});
  const Answers uk2{{"suspension", other}, {"axles", other}, {"transmission", other}, {"steering", other}};
  CHECK(points(uk2) == std::pair(6.0, 6.0));
  CHECK(outcomes("gb-points", uk2) == Ids{"approval"});
  const Answers uk3{{"chassis", "second-hand"}};
  CHECK(points(uk3) == std::pair(9.0, 9.0));
  CHECK(outcomes("gb-points", uk3) == Ids{"approval-chassis"});
  const Answers uk4{{"chassis", "new-from-maker"}, {"suspension", other}, {"steering", other}, {"engine", other}};
  CHECK(points(uk4) == std::pair(9.0, 9.0));
  CHECK(outcomes("gb-points", uk4) == Ids{"keeps"});
  CHECK(outcomes("gb-rebuilt", uk4) == Ids{"keeps"});
  const Answers uk5{{"engine", other}, {"transmission", other}};
  CHECK(points(uk5) == std::pair(11.0, 11.0));
  CHECK(outcomes("gb-points", uk5) == Ids{"keeps"});
  const Answers uk6{{"chassis", "altered"}, {"engine", other}, {"transmission", other}};
  CHECK(outcomes("gb-points", uk6) == Ids{"approval-chassis"});
  const Answers uk7{{"chassis", ""}};
  CHECK(points(uk7) == std::pair(9.0, 14.0));
  CHECK(outcomes("gb-points", uk7) == Ids{"approval-chassis", "keeps"});
  const Scheme& s = scheme("gb-points");
  const Classification c = classify(s, given(s, uk7, on(1960), on(2024)));
  REQUIRE(c.open.size() == 1);
  CHECK(s.questions[c.open.front()].id == "chassis");
}

TEST_CASE("The rule on the report's date and the one before it: in force to 25 August 2025, then undetermined", "[outside][schemes]") {
  CHECK(scheme("gb-points").in_force(on(2025, 8, 25)));
  CHECK_FALSE(scheme("gb-points").in_force(on(2025, 8, 26)));
  CHECK(scheme("gb-identity-2025").in_force(on(2025, 8, 26)));
  CHECK(outcomes("gb-identity-2025", {}) == Ids{"ask"});
}

TEST_CASE("Vehicle of historical interest: worked examples UK-8, UK-9, UK-11 to UK-13", "[outside][schemes]") {
  const CalendarDay car = on(1975), today = on(2020);
  CHECK(outcomes("gb-vhi", {{"engine", "no"}}, car, today) == Ids{"exempt"});                                            // UK-8
  CHECK(outcomes("gb-vhi", {{"running-gear", "yes"}}, car, today) == Ids{"changed"});                                    // UK-9
  CHECK(outcomes("gb-vhi", {{"running-gear", "excused"}}, on(1970), today) == Ids{"exempt"});                            // UK-11
  CHECK(outcomes("gb-vhi", {{"shell", "excused"}}, car, today) == Ids{"exempt"});                                        // UK-12
  CHECK(outcomes("gb-vhi", {{"category", "yes-taxed"}}, car, today) == Ids{"exempt"});                                   // UK-13
  CHECK(outcomes("gb-vhi", {{"category", "yes"}}, car, today) == Ids{"category"});
}

TEST_CASE("The statutory date of manufacture is the last day of the year (UK-15)", "[outside][schemes]") {
  // Assembled 3 March 1961: made on 31 December 1961, so 40 years old on 31 December 2001 and not in March.
  CHECK(outcomes("gb-vhi", {}, on(1961, 3, 3), on(2001, 6, 1)) == Ids{"too-young"});
  CHECK(outcomes("gb-vhi", {}, on(1961, 3, 3), on(2002, 1, 1)) == Ids{"exempt"});
}

TEST_CASE("FIVA classes and types: worked examples FV-1 to FV-6", "[outside][schemes]") {
  CHECK(outcomes("fiva-class", {}, on(1918, 12, 31)) == Ids{"B"});  // FV-1
  CHECK(outcomes("fiva-class", {}, on(1919, 1, 1)) == Ids{"C"});
  CHECK(outcomes("fiva-class", {}, on(1981, 1, 1), on(2011, 1, 1)) == Ids{"H"});  // FV-2: exactly 30 years
  CHECK(outcomes("fiva-class", {}, on(1981, 1, 1), on(2010, 12, 31)) == Ids{"young"});
  const std::string modern = "modern";
  CHECK(outcomes("fiva-type", {{"engine", modern}, {"transmission", modern}}, on(1965)) == Ids{"E"});                           // FV-3
  CHECK(outcomes("fiva-type", {{"engine", modern}, {"transmission", modern}, {"wheels", modern}}, on(1965)) == Ids{"refer"});   // FV-4
  CHECK(outcomes("fiva-type", {{"engine", "period-parts"}}, on(1965)) == Ids{"D"});                                             // FV-5
  CHECK(outcomes("fiva-type", {{"engine", "in-period"}}, on(1965)) == Ids{"B"});                                                // FV-6
  CHECK(outcomes("fiva-type", {}, on(1965)) == Ids{"A"});
  CHECK(outcomes("fiva-type", {{"copy", "yes"}}, on(1930)) == Ids{"C"});                                                        // FV-7
}

TEST_CASE("The German catalogue: worked examples DE-1 to DE-3", "[outside][schemes]") {
  const CalendarDay car = on(1980, 6, 1);
  CHECK(outcomes("de-catalogue", {{"fittings", "allowed"}}, car, on(2026)) == Ids{"meets"});         // DE-1
  CHECK(outcomes("de-catalogue", {{"brakes", "not-allowed"}}, car, on(2026)) == Ids{"changed"});     // DE-2
  CHECK(outcomes("eu-vhi", {{"changed", "yes"}}, car, on(2026)) == Ids{"changed"});
  CHECK(outcomes("eu-vhi", {}, car, on(2009)) == Ids{"too-young"});
  CHECK(outcomes("eu-vhi", {}, car, on(2026)) == Ids{"meets"});
}

TEST_CASE("A change with a date lapses when it is old enough: UK-10, DE-2 and DE-3", "[outside][schemes]") {
  const auto judged = [](const std::string& answer, const CalendarDay& today, const std::string& id) {
    const std::string lines = R"(<observed feature="body-style" value="van"/><observed feature="rear-lamps" value="small-glass"/>)" + answer;
    const auto a = assess_lines(pack("aldermoor-carrier"), lines);
    Diagnostics d;
    const Inspection i = inspection_from_text("<inspection format=\"1\">" + lines + "</inspection>");
    const std::vector<Scheme> one{scheme(id)};
    const auto verdicts = scheme_verdicts(one, pack("aldermoor-carrier"), a, i, today, d);
    INFO(messages(d));
    CHECK(d.all().empty());
    std::vector<std::string> out;
    for (const SchemeLine& line : verdicts.front().lines) {
      const SchemeQuestion& q = one.front().questions[line.question];
      if (line.from == AnswerFrom::answer) out.push_back(q.id + "=" + q.answers[line.possible.front()].id);
    }
    return out;
  };
  // UK-10: as UK-9, but the change is documented of 1985; UK-9: of 2015.
  const std::string axle = R"(<answer scheme="gb-vhi" question="running-gear" is="yes" date=")";
  CHECK(judged(axle + "1985\"/>", on(2026), "gb-vhi") == Ids{"running-gear=no"});
  CHECK(judged(axle + "2015\"/>", on(2026), "gb-vhi") == Ids{"running-gear=yes"});
  // DE-2: discs of another series fitted 2005, not before 2035; DE-3: a camper roof of 1994, from 2024.
  const std::string brakes = R"(<answer scheme="de-catalogue" question="brakes" is="not-allowed" date="2005"/>)";
  CHECK(judged(brakes, on(2026), "de-catalogue") == Ids{"brakes=not-allowed"});
  CHECK(judged(brakes, on(2036), "de-catalogue") == Ids{"brakes=allowed"});
  const std::string roof = R"(<answer scheme="de-catalogue" question="frame" is="not-allowed" date="1994"/>)";
  CHECK(judged(roof, on(2023, 12, 31), "de-catalogue") == Ids{"frame=not-allowed"});
  CHECK(judged(roof, on(2024, 12, 31), "de-catalogue") == Ids{"frame=allowed"});
}

TEST_CASE("What the vehicle shows answers the questions: a later engine, a gearbox as built, the rest not inspected", "[schemes]") {
  const std::string lines = R"(<number id="chassis-number" text="AC V 21000"/><observed feature="body-style" value="van"/><observed feature="steering-side" value="right"/>
    <observed feature="speedometer" value="miles"/><observed feature="synchromesh" value="all"/><observed feature="gearbox-casing" value="smooth"/>)";
  const auto a = assess_lines(pack("aldermoor-carrier"), lines);
  REQUIRE(feature(a, "synchromesh").verdict == VerdictKind::later_change);
  Diagnostics d;
  const auto verdicts = scheme_verdicts(schemes(), pack("aldermoor-carrier"), a, inspection_from_text("<inspection format=\"1\">" + lines + "</inspection>"), on(2024), d);
  for (const SchemeVerdict& v : verdicts) {
    if (schemes()[v.scheme].id != "gb-points") continue;
    const Scheme& s = schemes()[v.scheme];
    const auto answers = [&](const std::string& id) {
      Ids out;
      const SchemeLine& line = v.lines[s.question(id).value()];
      for (const std::size_t i : line.possible) out.push_back(s.questions[line.question].answers[i].id);
      return out;
    };
    CHECK(answers("transmission") == Ids{"other"});
    CHECK(answers("engine") == Ids{"original", "other"});      // not looked at
    CHECK(answers("suspension") == Ids{"original", "other"});  // the pack has nothing on it
    CHECK(v.result.points_low == 2.0);    // steering alone is shown
    CHECK(v.result.points_high == 12.0);  // all but the transmission
  }
  // Each rule of points is shown with its clause: 5 + 2 + 2 + 2 + 2 + 1 (standards.md 1.5).
  std::string text;
  for (const char c : text_schemes(pack("aldermoor-carrier"), schemes(), verdicts, false)) text += c == '\n' ? ' ' : c;
  CHECK(text.find("5 points for 'the vehicle's own, not altered or new from the maker") != std::string::npos);
  CHECK(text.find("2 points for 'original' (transmission)") != std::string::npos);
  CHECK(text.find("1 point for 'original' (engine)") != std::string::npos);
}

TEST_CASE("A feature that speaks of two components is named once", "[schemes]") {
  // The Minor's body style is both shell and body; the German catalogue asks for the two together.
  const std::string lines = R"(<observed feature="body-style" value="saloon-2dr"/>)";
  const auto a = assess_lines(pack("morris-minor"), lines);
  Diagnostics d;
  const auto verdicts = scheme_verdicts(schemes(), pack("morris-minor"), a, inspection_from_text("<inspection format=\"1\">" + lines + "</inspection>"), on(2024), d);
  for (const SchemeVerdict& v : verdicts) {
    const Scheme& s = schemes()[v.scheme];
    if (s.id == "de-catalogue") CHECK(v.lines[s.question("frame").value()].features.size() == 1);
  }
}

TEST_CASE("Every scheme is valid by its grammar", "[schemes]") {
  for (const auto& e : fs::directory_iterator(rules_dir() / "scheme")) {
    INFO(e.path());
    CHECK(std::system(("xmllint --noout --relaxng '" + (rules_dir() / "schema/scheme.rng").string() + "' '" + e.path().string() + "' >/dev/null 2>&1").c_str()) == 0);
  }
}
