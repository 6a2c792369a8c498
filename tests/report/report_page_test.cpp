#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>

#include "base/file.hpp"
#include "base/text.hpp"
#include "report/render/html_writer.hpp"
#include "report/json/assessment_json.hpp"
#include "report/kinds/report_kinds.hpp"
#include "report/render/render.hpp"
#include "report/model/report.hpp"
#include "words/redaction.hpp"
#include "report/json/document_json.hpp"
#include "report/kinds/sheet.hpp"
#include "report/render/style.hpp"
#include "support.hpp"
#include "words/english/scales.hpp"

using namespace exworks;
using namespace exworks::test;

namespace {

constexpr ReportKind kinds[] = {ReportKind::pre_purchase, ReportKind::intake, ReportKind::owner};

struct Made {
  std::string html, text;
  Report report;
  Assessment assessment;
  nlohmann::ordered_json contents;
};

Made make(const Tables& tables, Inspection inspection, ReportKind kind, bool redacted = false) {
  Settings settings;
  settings.fit_draws = 20;
  Diagnostics diagnostics;
  auto assessment = assess(tables, inspection, settings, {}, diagnostics);
  INFO(messages(diagnostics));
  REQUIRE(assessment);
  const NextChecks next = next_checks(tables, inspection, Aim::both, std::nullopt, 4, diagnostics);
  if (redacted) redact(*assessment, inspection);
  ReportOptions options;
  options.kind = kind;
  options.date = "2026-11-25";
  options.program = "exworks test";
  const ReportInput input{{tables, inspection, *assessment}, next, {}, nullptr, {}, nullptr, {}};
  const Report report = build_report(input, options);
  return {render_html(tables, report), render_text(tables, report), report, *assessment, report_contents(input, report)};
}

Inspection sample(const fs::path& path) {
  Diagnostics diagnostics;
  auto inspection = read_inspection(read_file(path), path.string(), diagnostics);
  REQUIRE(inspection);
  return *inspection;
}

std::vector<fs::path> samples() {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(source_dir() / "sample-vehicles")) {
    if (entry.path().extension() == ".xml") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string first_page(const Report& report) {
  std::string words;
  for (const Block& block : report.blocks) {
    if (const auto* answers = std::get_if<Answers>(&block)) {
      for (const auto& [question, answer] : answers->items) words += question + " " + answer.words + " ";
    }
  }
  return words;
}

void self_contained(const std::string& html) {
  for (const char* forbidden : {"<script", "<link", "@import", "<iframe", "<object", "javascript:", "onload=", "onerror="}) CHECK(html.find(forbidden) == std::string::npos);
  const std::regex outside(R"((src=\"|url\()(?!data:))");
  CHECK_FALSE(std::regex_search(html.begin(), html.end(), outside, std::regex_constants::match_default));
}

}  // namespace

TEST_CASE("every colour of the style table has the contrast that its use needs, on both grounds") {
  CHECK(contrast("#000000", "#ffffff") == Approx(21));  // WCAG 2.2, relative luminance: black on white
  CHECK(contrast("#0072b2", "#ffffff") == Approx(5.19).margin(0.01));
  for (const Ink& ink : inks) {
    if (ink.needs == 0) continue;
    for (const Ink& ground : inks) {
      if (ground.needs > 0) continue;
      INFO(ink.name << " on " << ground.name);
      CHECK(contrast(ink.light, ground.light) >= ink.needs);
      CHECK(contrast(ink.dark, ground.dark) >= ink.needs);
    }
    CHECK(contrast(ink.light, "#ffffff") >= ink.needs);  // on paper
  }
}

TEST_CASE("text is escaped at one place") {
  CHECK(escaped("<&\">'") == "&lt;&amp;&quot;&gt;&#39;");
  CHECK(escaped("a\x01" "b\xE2\x80\xAE" "c") == "a\xEF\xBF\xBD" "b\xEF\xBF\xBD" "c");
  CHECK(escaped("שלום 🚗") == "שלום 🚗");
  CHECK(may_link("https://a.example/b?c=d"));
  CHECK_FALSE(may_link("javascript:alert(1)"));
  CHECK_FALSE(may_link("https://a.example/\" onclick=\"x"));
}

TEST_CASE("every sample vehicle gets every kind of report: self-contained, the same bytes again, and a first page under 150 words") {
  for (const fs::path& path : samples()) {
    const Inspection inspection = sample(path);
    const Tables& tables = pack(inspection.family);
    for (ReportKind kind : kinds) {
      INFO(path.filename().string() << " " << static_cast<int>(kind));
      const Made made = make(tables, inspection, kind);
      self_contained(made.html);
      CHECK(made.html == make(tables, inspection, kind).html);
      CHECK(made.html.find("<html lang=\"en-GB\">") != std::string::npos);
      CHECK(made.html.find("Content-Security-Policy") != std::string::npos);
      CHECK(std::count(made.text.begin(), made.text.end(), '\n') > 40);
      CHECK(made.text.find(" proves") == std::string::npos);
      if (kind != ReportKind::pre_purchase) continue;
      CHECK(split_words(first_page(made.report)).size() < 150);
    }
  }
}

TEST_CASE("hostile text in every field is shown as text") {
  const std::string evil = "<script>alert(1)</script>\"'&<img src=x onerror=alert(2)> שלום 🚗 " + std::string(10'000, 'x');
  Inspection inspection = sample(source_dir() / "sample-vehicles" / "carrier-number-and-vehicle-disagree.xml");
  inspection.vehicle = inspection.reference = inspection.note = inspection.by = evil;
  for (Observation& o : inspection.observations) o.note = o.photo = evil;
  for (NumberSeen& n : inspection.numbers) n.note = n.photo = evil;
  for (Claim& c : inspection.claims) c.by = c.note = evil;
  for (Document& d : inspection.documents) d.note = evil;
  if (!inspection.numbers.empty()) inspection.numbers.back().text += evil;
  for (ReportKind kind : kinds) {
    const std::string html = make(pack(inspection.family), inspection, kind).html;
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find("<img src=x") == std::string::npos);
    CHECK(html.find("&lt;script&gt;alert(1)") != std::string::npos);
    CHECK(html.find("שלום 🚗") != std::string::npos);
  }
}

TEST_CASE("a redacted report holds no full number, name, reference or note") {
  Inspection inspection = sample(source_dir() / "sample-vehicles" / "morris-minor-1950-saloon.xml");
  inspection.by = "Inspector Marple";
  for (ReportKind kind : kinds) {
    const Made made = make(pack("morris-minor"), inspection, kind, true);
    for (const char* secret : {"52310", "148320", "Inspector Marple", "sample 6", "Spreader plates", "Thick underseal"}) {
      INFO(secret);
      CHECK(made.html.find(secret) == std::string::npos);
    }
    CHECK(made.html.find("SMM…") != std::string::npos);
  }
}

TEST_CASE("an inspection sheet asks for what is open and for nothing else") {
  const Tables& tables = pack("aldermoor-carrier");
  const Inspection inspection = sample(source_dir() / "sample-vehicles" / "carrier-seen-from-the-road.xml");
  Diagnostics diagnostics;
  SheetOptions options;
  options.date = "2026-11-25";
  const auto titles = [&](const Inspection& in) {
    std::vector<std::string> out;
    for (const Block& block : inspection_sheet(tables, in, next_checks(tables, in, Aim::both, std::nullopt, 1000, diagnostics), options).blocks) {
      if (const auto* item = std::get_if<SheetItem>(&block)) out.push_back(item->title);
    }
    return out;
  };
  const auto all = titles({}), open = titles(inspection);
  CHECK(all.size() == tables.feature_index.size());
  CHECK(open.size() < all.size());
  for (const Observation& o : inspection.observations) {
    if (o.state == LookState::not_seen) continue;
    CHECK(std::find(open.begin(), open.end(), tables.features[tables.feature_index.at(o.feature)].name) == open.end());
  }
}

TEST_CASE("dates and measures follow the region") {
  CHECK(long_date("2026-11-05", Region::en_GB) == "5 November 2026");
  CHECK(long_date("2026-11-05", Region::en_US) == "November 5, 2026");
  CHECK(measure_words(7, "in", Region::en_GB) == "178 mm (7 in)");
  CHECK(measure_words(7, "in", Region::en_US) == "7 in (178 mm)");
  CHECK(measure_words(918, "cc", Region::en_US) == "918 cc");
}
