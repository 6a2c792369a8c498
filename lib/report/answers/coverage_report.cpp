#include "report/answers/coverage_report.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "report/render/page.hpp"
#include "words/english/scales.hpp"

namespace exworks {

namespace {

std::string months(double n) {
  const auto whole = static_cast<long>(std::lround(n));
  return std::to_string(whole) + (whole == 1 ? " month" : " months");
}

/// Of all facts. This is a count: none is 0 % and all is 100 %, as no probability is.
std::string share_of(std::size_t part, std::size_t all) {
  if (part == 0 || part == all) return part == 0 ? "0 %" : "100 %";
  return percent(static_cast<double>(part) / static_cast<double>(all));
}

std::string counted(std::size_t n, const char* one, const char* many) { return std::to_string(n) + " " + (n == 1 ? one : many); }

std::vector<std::string> names(const Tables& t, const std::vector<std::size_t>& features) {
  std::vector<std::string> out;
  for (std::size_t f : features) out.push_back(t.features[f].id);
  return out;
}

void by_year(const Tables& t, const GenerationCoverage& g, Page& page) {
  page.heading(t.axes.generations[g.generation].name + ": what dates a vehicle, year by year");
  for (const YearCoverage& y : g.years) {
    const std::string label = std::to_string(y.year) + (y.vehicles > 0 ? "  " + months(y.median_window_months) : "");
    page.pair(label, y.dating.empty() ? "no changeover in this year" : join_and(names(t, y.dating)), 2, 20);
  }
}

void silence(const Tables& t, const PackCoverage& c, Page& page) {
  page.heading("Where the pack is silent on what the works fitted");
  if (c.silent.empty()) page.paragraph("Nowhere.");
  for (std::size_t i = 0; i < c.silent.size();) {
    const std::size_t feature = c.silent[i].feature;
    std::vector<std::string> parts;
    for (; i < c.silent.size() && c.silent[i].feature == feature; ++i) {
      const SilentArea& a = c.silent[i];
      parts.push_back(t.axes.generations[a.generation].name + " " + to_words(a.from) + " to " + to_words(a.to) + " (" + percent(a.share) + " of them)");
    }
    page.pair(t.features[feature].id, join_and(parts), 2, 30);
  }
}

}  // namespace

std::string text_coverage(const Tables& t, const PackCoverage& c, std::size_t reference_vehicles, bool colour) {
  Page page(colour);
  page.heading(t.name + ": what the pack covers");
  page.paragraph(counted(t.axes.generations.size(), "generation", "generations") + ", " + counted(t.axes.variants.size(), "variant", "variants") + ", " + counted(c.features, "feature", "features") + ", " +
                 counted(c.facts, "fact", "facts") + ", " + counted(t.changes.size() + t.conversions.size(), "later change", "later changes") + ", " + counted(c.number_ranges, "range of numbers", "ranges of numbers") + ", " +
                 counted(reference_vehicles, "reference vehicle", "reference vehicles"));
  page.blank();
  page.leader("facts with a published source", std::to_string(c.published) + "  (" + share_of(c.published, c.facts) + ")");
  page.leader("common practice, no source", std::to_string(c.common_practice) + "  (" + share_of(c.common_practice, c.facts) + ")");
  page.leader("from memory alone", std::to_string(c.memory) + "  (" + share_of(c.memory, c.facts) + ")");
  page.leader("90 % date set with every feature seen, median", months(c.median_window_months));
  page.leader("the same with the identity number read", months(c.median_window_with_number_months));
  page.paragraph(std::to_string(c.simulated) + " simulated vehicles, seed " + std::to_string(c.seed) + "; the pack has numbers for the month of " +
                 (c.share_with_number >= 1 ? std::string("each") : percent(c.share_with_number)) + " of them.");
  for (const GenerationCoverage& g : c.generations) by_year(t, g, page);
  silence(t, c, page);
  return page.text();
}

nlohmann::ordered_json json_coverage(const Tables& t, const PackCoverage& c, std::size_t reference_vehicles) {
  using Json = nlohmann::ordered_json;
  Json out = {{"family", t.family},
              {"generations", t.axes.generations.size()},
              {"variants", t.axes.variants.size()},
              {"features", c.features},
              {"facts", c.facts},
              {"facts_by_source", {{"published", c.published}, {"common_practice", c.common_practice}, {"memory", c.memory}}},
              {"later_changes", t.changes.size() + t.conversions.size()},
              {"number_ranges", c.number_ranges},
              {"reference_vehicles", reference_vehicles},
              {"median_window_months", c.median_window_months}};
  out["silent"] = Json::array();
  for (const SilentArea& a : c.silent) {
    out["silent"].push_back({{"feature", t.features[a.feature].id}, {"generation", t.axes.generations[a.generation].id}, {"share", a.share}, {"from", to_iso(a.from)}, {"to", to_iso(a.to)}});
  }
  out["median_window_with_number_months"] = c.median_window_with_number_months;
  out["share_with_number"] = c.share_with_number;
  out["simulated"] = c.simulated;
  out["seed"] = c.seed;
  out["by_generation"] = Json::array();
  for (const GenerationCoverage& g : c.generations) {
    Json years = Json::array();
    for (const YearCoverage& y : g.years) {
      Json year = {{"year", y.year}, {"share", y.share}, {"simulated", y.vehicles}, {"features", names(t, y.dating)}};
      if (y.vehicles > 0) year["median_window_months"] = y.median_window_months;
      years.push_back(std::move(year));
    }
    out["by_generation"].push_back({{"generation", t.axes.generations[g.generation].id}, {"years", std::move(years)}});
  }
  return out;
}

std::string markdown_coverage_head() {
  return "| pack | generations | variants | features | facts | published | common practice | memory | later changes | number ranges | reference vehicles | "
         "median 90 % date window, everything seen | and the number read |\n"
         "|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|\n";
}

std::string markdown_coverage_row(const Tables& t, const PackCoverage& c, std::size_t reference_vehicles) {
  std::string row = "| " + t.name;
  for (std::size_t n : {t.axes.generations.size(), t.axes.variants.size(), c.features, c.facts}) row += " | " + std::to_string(n);
  row += " | " + std::to_string(c.published) + " (" + share_of(c.published, c.facts) + ")";
  for (std::size_t n : {c.common_practice, c.memory, t.changes.size() + t.conversions.size(), c.number_ranges, reference_vehicles}) row += " | " + std::to_string(n);
  return row + " | " + months(c.median_window_months) + " | " + months(c.median_window_with_number_months) + " |\n";
}

}  // namespace exworks
