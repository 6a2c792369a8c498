#include "workshop/job_inspection.hpp"

#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "support.hpp"
#include "workshop/jobs.hpp"
#include "workshop/make_report.hpp"
#include "workshop/schemes.hpp"

/// From an inspection into the book and back, and on to a report: what the command and the guided inspection share, without a process.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string van = R"(<inspection format="1" family="aldermoor-carrier" date="2026-11-20" by="Ina"><vehicle name="A van" reference="order 12"/>
<claimed by="seller" built="1953"/>
<number id="chassis-number" text="AC V 8205"/>
<observed feature="headlamp-position" value="high" note="seen &amp; felt"/>
</inspection>)";

struct Workshop {
  TemporaryFolder folder;
  Book book{folder.path() / "book.db", system_environment()};
  Diagnostics remarks;

  std::int64_t take_in(const std::string& xml) { return book.new_job(entries_of_xml(xml, "van.xml", remarks), "ab", std::nullopt); }
};

std::string told(const Mistakes& m) { return lines_of(m.found); }

/// What a call says that throws Mistakes.
template <class Work>
std::string mistakes_of(const Work& work) {
  try {
    work();
  } catch (const Mistakes& m) {
    return told(m);
  }
  return "";
}

}  // namespace

TEST_CASE("What an inspection says is in the book, and comes out of it as it was written", "[book]") {
  Workshop w;
  const std::int64_t job = w.take_in(van);
  CHECK(messages(w.remarks).empty());
  Diagnostics d;
  const auto inspection = inspection_of_job(w.book, job, d);
  REQUIRE(inspection);
  CHECK(inspection->family == "aldermoor-carrier");
  CHECK(inspection->vehicle == "A van");
  REQUIRE(inspection->observations.size() == 1);
  CHECK(inspection->observations.front().note == "seen & felt");
  REQUIRE(inspection->numbers.size() == 1);
  CHECK(inspection->numbers.front().text == "AC V 8205");
  CHECK(inspection->claims.size() == 1);
}

TEST_CASE("A feature that stands in an inspection twice is refused: the book would keep one of the two", "[book]") {
  Workshop w;
  const std::string twice = R"(<inspection format="1"><observed feature="grille" value="nine-bars"/><observed feature="grille" value="six-bars"/></inspection>)";
  CHECK(mistakes_of([&] { w.take_in(twice); }) == "van.xml: observed 'grille' is in the inspection twice; keep one of the two");
  CHECK(mistakes_of([&] { w.take_in("<inspection"); }).find("van.xml:1:") == 0);
  CHECK(w.book.all_jobs().empty());
}

TEST_CASE("A job is found by its number, else by the reference that is its alone", "[book]") {
  Workshop w;
  const std::int64_t first = w.take_in(van);
  CHECK(find_job(w.book, std::to_string(first)) == first);
  CHECK(find_job(w.book, "order 12") == first);
  w.take_in(van);
  CHECK_THROWS_AS(find_job(w.book, "order 12"), FileError);
  CHECK_THROWS_AS(find_job(w.book, "order 13"), FileError);
}

TEST_CASE("Text that XML or a terminal can't hold is refused, and where", "[book]") {
  CHECK_NOTHROW(require_text("--note", "gef\xC3\xA4hrlich"));
  CHECK(mistakes_of([] { require_text("--note", "gef\xE4hrlich"); }) == "--note is not plain text: byte 4 is no character; write it in UTF-8, without control characters");
}

TEST_CASE("A job becomes a report; redacted, it keeps what was found and leaves out whose it is", "[report]") {
  Workshop w;
  const std::int64_t job = w.take_in(van);
  for (const bool redacted : {false, true}) {
    Diagnostics d;
    auto subject = subject_of_job(w.book, job, d);
    REQUIRE(subject);
    const auto made = make_report(pack("aldermoor-carrier"), std::move(*subject), {report_options("intake", "en-GB", "", "2026-11-25"), {}, redacted, std::nullopt, {}}, d);
    INFO(messages(d));
    REQUIRE(made);
    CHECK(made->html.find("<html") != std::string::npos);
    CHECK(made->text.find("eadlamp") != std::string::npos);
    CHECK((made->text.find("order 12") == std::string::npos) == redacted);
    CHECK((made->contents->dump().find("AC V 8205") == std::string::npos) == redacted);
  }
}

TEST_CASE("A report's words and paper follow the reader's country", "[report]") {
  CHECK(report_options("owner", "en-US", "", "2026-11-25").paper == "letter");
  CHECK(report_options("owner", "en-GB", "", "2026-11-25").paper == "A4");
  CHECK(report_options("owner", "en-US", "a4", "2026-11-25").paper == "A4");
  CHECK(report_options("", "", "", "").date == today());
}

TEST_CASE("Classifications are chosen by id or group, and a word that names none is told with the nearest", "[schemes]") {
  const std::vector<Scheme> all = load_schemes(Rules{{rules_dir()}, {}});
  REQUIRE(all.size() > 2);
  const auto chosen = choose_schemes(all, {all.front().id});
  REQUIRE_FALSE(chosen.empty());
  CHECK(chosen.size() < all.size());
  CHECK(choose_schemes(all, {}).size() == all.size());
  CHECK(mistakes_of([&] { choose_schemes(all, {all.front().id + "x"}); }) == "there is no scheme or group '" + all.front().id + "x'; did you mean '" + all.front().id + "'?");
  CHECK(mistakes_of([] { report_day("20.11.2026"); }) == "--date '20.11.2026' is not a day; write it 2026-11-20");
  CHECK(report_day("2026-11-20").day == 20);
  for (const Scheme& s : schemes_for(all, Region::en_US)) CHECK((s.country.empty() || s.country == "US"));
}
