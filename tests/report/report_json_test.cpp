#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "base/file.hpp"
#include "report/json/document_json.hpp"
#include "report/kinds/report_kinds.hpp"
#include "support.hpp"
#include "words/english/scales.hpp"

/// Nothing stands on a page that a program could not find: each figure of a report's first page is a number of its JSON, or
/// stands in one of its names. Common practice, no source.
using namespace exworks;
using namespace exworks::test;

namespace {

using Json = nlohmann::ordered_json;

/// Everything that the JSON says: percentages as the page would write them, other numbers, and all its words.
struct Said {
  std::vector<std::string> percentages;
  std::vector<double> numbers;
  std::string words;

  void take(const Json& node) {
    if (node.is_number()) {
      percentages.push_back(percent(node.get<double>()));
      numbers.push_back(node.get<double>());
    }
    if (node.is_string()) words += node.get<std::string>() + "\n";
    if (!node.is_structured()) return;
    for (auto at = node.begin(); at != node.end(); ++at) {
      // The page's own wording proves nothing.
      if (!node.is_object() || (at.key() != "answers" && at.key() != "title")) take(at.value());
    }
  }
  bool has_percentage(const std::string& text) const { return std::find(percentages.begin(), percentages.end(), text) != percentages.end(); }
  bool has_number(const std::string& text) const {
    const double n = std::stod(text);
    if (std::any_of(numbers.begin(), numbers.end(), [&](double m) { return std::abs(n - m) < 0.5 && std::llround(m) == std::llround(n); })) return true;
    return words.find(text) != std::string::npos;
  }
};

std::string words_of(const Block& block) {
  std::string out;
  if (const auto* b = std::get_if<Paragraph>(&block)) out = b->text.words;
  if (const auto* b = std::get_if<Answers>(&block)) {
    for (const auto& [question, answer] : b->items) out += answer.words + "\n";
  }
  if (const auto* b = std::get_if<Bullets>(&block)) {
    for (const Text& t : b->items) out += t.words + "\n";
  }
  if (const auto* b = std::get_if<Table>(&block)) {
    for (const auto& row : b->rows) {
      for (const Text& t : row) out += t.words + "\n";
    }
  }
  if (const auto* b = std::get_if<Finding>(&block)) out = b->title + "\n" + b->figure;
  return out;
}

/// What comes before the third heading: the first page of A4 ends within it.
std::string first_page(const Report& report) {
  std::string out;
  int headings = 0;
  for (const Block& block : report.blocks) {
    const auto* heading = std::get_if<Heading>(&block);
    if (heading != nullptr && heading->level <= 2 && ++headings == 3) break;
    out += words_of(block) + "\n";
  }
  return out;
}

/// The percentages of a text, and its other numbers.
void check_figures(const std::string& text, const Said& said) {
  static const std::regex percentage(R"((> |< )?\d+(\.\d)? %)"), number(R"(\d[\d,]*(\.\d+)?)");
  std::string rest;
  auto from = text.begin();
  for (std::sregex_iterator at(text.begin(), text.end(), percentage), end; at != end; ++at) {
    INFO(at->str() << " in:\n" << text);
    CHECK(said.has_percentage(at->str()));
    rest.append(from, text.begin() + at->position());
    from = text.begin() + at->position() + at->length();
  }
  rest.append(from, text.end());
  for (std::sregex_iterator at(rest.begin(), rest.end(), number), end; at != end; ++at) {
    std::string digits = at->str();
    std::erase(digits, ',');
    INFO(digits << " in:\n" << rest);
    CHECK(said.has_number(digits));
  }
}

struct Prepared {
  Inspection inspection;
  Assessment assessment;
  NextChecks next;
};

Prepared prepare(const fs::path& path) {
  Diagnostics diagnostics;
  auto inspection = read_inspection(read_file(path), path.string(), diagnostics);
  REQUIRE(inspection);
  Settings settings;
  settings.fit_draws = 20;
  auto assessment = assess(pack(inspection->family), *inspection, settings, {}, diagnostics);
  REQUIRE(assessment);
  NextChecks next = next_checks(pack(inspection->family), *inspection, Aim::both, std::nullopt, 4, diagnostics);
  return {*inspection, *assessment, next};
}

ReportOptions options_of(ReportKind kind) {
  ReportOptions options;
  options.kind = kind;
  options.date = "2026-11-25";
  return options;
}

}  // namespace

TEST_CASE("every figure on the first page of every report of every sample is in its JSON", "[report]") {
  std::size_t samples = 0;
  for (const auto& entry : fs::directory_iterator(source_dir() / "sample-vehicles")) {
    if (entry.path().extension() != ".xml") continue;
    ++samples;
    const Prepared p = prepare(entry.path());
    for (ReportKind kind : {ReportKind::pre_purchase, ReportKind::intake, ReportKind::owner}) {
      INFO(entry.path().filename().string() << ", kind " << static_cast<int>(kind));
      const ReportInput input{{pack(p.inspection.family), p.inspection, p.assessment}, p.next, {}, nullptr, {}, nullptr, {}};
      const Report report = build_report(input, options_of(kind));
      Said said;
      said.take(report_contents(input, report));
      check_figures(first_page(report), said);
    }
  }
  CHECK(samples >= 5);
}

TEST_CASE("every sum and share of the note on value is in the JSON", "[report]") {
  const Prepared p = prepare(source_dir() / "sample-vehicles/morris-minor-1950-saloon.xml");
  Diagnostics diagnostics;
  const auto sales = read_comparables("date,price,currency,year,variant,condition,originality,note\n2026-05,6500,GBP,1950,mm-2dr,2,80,auction\n2025-11,5200,GBP,1951,mm-2dr,3,60,\n"
                                      "2025-02,4100,GBP,1949,,4,,\n2024-02,7100,GBP,1950,,1,,\n2026-01,5600,GBP,1952,,3,,\n", "sales.csv", diagnostics);
  REQUIRE_FALSE(diagnostics.has_errors());
  Valuation value = value_note(sales, {p.assessment.date.most_likely, 1950, "mm-2dr", 3, 70, 0.02});
  value.rate = 60;
  value.changes = {{"Later engine", 12, 720, 450, true}, {"Something", 0, 0, 0, false}};
  const ReportInput input{{pack("morris-minor"), p.inspection, p.assessment}, p.next, {}, &value, {}, nullptr, {}};
  const Report report = build_report(input, options_of(ReportKind::owner));
  Said said;
  const Json contents = report_contents(input, report);
  said.take(contents["valuation"]);
  CHECK(contents["valuation"]["sales"].size() == 5);
  bool within = false;
  for (const Block& block : report.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) within = heading->words.starts_with("A note on value");
    if (const auto* table = std::get_if<Table>(&block); within && table != nullptr) {
      for (const auto& row : table->rows) {
        // The sum of work and parts is left to the reader.
        for (std::size_t i = 0; i < std::min<std::size_t>(row.size(), table->head.back() == "In all" ? 4 : 5); ++i) check_figures(row[i].words, said);
      }
    }
    if (const auto* paragraph = std::get_if<Paragraph>(&block); within && paragraph != nullptr && paragraph->text.strong) check_figures(paragraph->text.words.substr(0, paragraph->text.words.find(" (at ")), said);
  }
}
