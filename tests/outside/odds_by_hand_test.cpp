#include <cmath>
#include <regex>
#include <sstream>

#include "base/file.hpp"
#include "engine/infer/findings.hpp"
#include "engine/infer/posterior.hpp"
#include "support.hpp"

/// lib/handbook/how-the-odds-are-computed.md works one example with a pocket calculator. Here its pack and its inspection go through the
/// engine, and each figure of its table and of its text must come out as printed there.
using namespace exworks;
using namespace exworks::test;

namespace {

const std::string& page() {
  static const std::string text = read_file(source_dir() / "lib/handbook/how-the-odds-are-computed.md");
  return text;
}

std::string file_block(const std::string& name) {
  const std::string opening = "```xml file=" + name + "\n";
  const std::size_t at = page().find(opening);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = at + opening.size();
  return page().substr(begin, page().find("```", begin) - begin);
}

struct HandRow {
  double lamps, gearbox, odds;
};

/// A row of the table of months: | month | F | L(lamps) | F | L squared | P(gearbox) | odds |
HandRow hand_row(const std::string& month) {
  std::istringstream lines(page());
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| " + month + " |")) continue;
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, '|');) cells.push_back(cell);
    REQUIRE(cells.size() == 8);
    return {std::stod(cells[3]), std::stod(cells[6]), std::stod(cells[7])};
  }
  FAIL("the page has no row for " << month);
  return {};
}

/// The last figure of the line that begins with these words.
double figure_after(const std::string& words) {
  const std::size_t at = page().find(words);
  REQUIRE(at != std::string::npos);
  std::smatch match;
  const std::string line = page().substr(at, page().find('\n', at) - at);
  REQUIRE(std::regex_search(line, match, std::regex("= ([0-9.]*[0-9])[^=]*$")));
  return std::stod(match[1]);
}

constexpr double six_digits = 0.51e-6, four_digits = 0.51e-4;

}  // namespace

TEST_CASE("the handbook's example computed by hand is what the engine computes", "[outside][handbook]") {
  const Tables tables = pack_from_text(file_block("packs/trial/pack.xml"));
  Diagnostics diagnostics;
  const Evidence evidence = bind(tables, inspection_from_text(file_block("seen.xml")), diagnostics);
  REQUIRE_FALSE(diagnostics.has_errors());
  const Posterior posterior = infer(tables, evidence);
  REQUIRE(posterior.branches.size() == 1);
  REQUIRE(posterior.units.size() == 2);
  const std::size_t gearbox = posterior.units[0].assembly() ? 0 : 1, lamps = 1 - gearbox;
  REQUIRE(tables.builds() == 4);
  for (std::size_t build = 0; build < 4; ++build) {
    const std::string month = "1950-0" + std::to_string(build + 1);
    INFO(month);
    const HandRow hand = hand_row(month);
    const std::size_t cell = tables.cell_of[build];
    const auto of_unit = [&](std::size_t unit) { return std::exp(posterior.units[unit].log(posterior.targets[unit][posterior.branches[0].target_of[unit][cell]], Scenario{})); };
    CHECK(of_unit(lamps) == Approx(hand.lamps).margin(six_digits).epsilon(0));
    CHECK(of_unit(gearbox) == Approx(hand.gearbox).margin(six_digits).epsilon(0));
    CHECK(posterior.build[build] == Approx(hand.odds).margin(four_digits).epsilon(0));
  }
  const Unit& lamp = posterior.units[lamps];
  const auto type = [&](std::size_t build) {
    const Unit::Target& target = posterior.targets[lamps][posterior.branches[0].target_of[lamps][tables.cell_of[build]]];
    return split_type(lamp, target, Scenario{}, 0, std::nullopt, lamp.log(target, Scenario{})).type;
  };
  CHECK(type(0) == Approx(figure_after("    January, February:  0.9987 x 0.968571 / ")).margin(six_digits).epsilon(0));
  CHECK(type(2) == Approx(figure_after("    March:             (0.9987")).margin(six_digits).epsilon(0));
  CHECK(type(3) == Approx(figure_after("    April:              0.001 x 0.969 / ")).margin(six_digits).epsilon(0));
  for (const FeatureFinding& f : feature_findings(evidence, posterior)) {
    if (tables.features[f.feature].id == "lamps") CHECK(f.p_type == Approx(figure_after("Weighted with the odds of the months: P(lamps as built)")).margin(four_digits).epsilon(0));
  }
}

TEST_CASE("the handbook's example again, by plain arithmetic", "[outside][handbook]") {
  // The formulas of the page, without the engine; so a slip of the pen and a slip of the engine can't hide each other.
  constexpr double e = 0.04, c = 0.2, from_outside = 0.4, right = 1 - 0.001 - 0.0003, wrong = 0.001, taken_for_ours = 0.05 / 2;
  const double low[] = {1, 1, 0.5, 0}, fresh[] = {0, 0.5, 1, 1};
  // Where a change leads that stays within the family: to what was noted or to the other, by months; three times to the later one where the vehicle left with an older kind.
  const auto family = [](double noted, double other, bool noted_is_later, bool had_older) {
    const double n = noted * (noted_is_later && had_older ? 3 : 1), o = other * (!noted_is_later && had_older ? 3 : 1);
    return n / (n + o);
  };
  const auto likelihood = [&](double works, double to_noted) {
    const double there = (1 - e) * works + e * (1 - from_outside) * to_noted, outside = e * from_outside;
    return right * there + wrong * (1 - there - outside) + taken_for_ours * outside;
  };
  const auto lamp = [&](int m) { return likelihood(low[m], family(2.5, 1.5, false, low[m] > 0)); };
  const auto box = [&](int m) { return std::pow(likelihood(fresh[m], family(2.5, 1.5, true, fresh[m] < 1)), 2); };
  const double kind[] = {1, 2, 3.5, 3.5};  // mean month of the vehicles with a gearbox of this kind
  const double unnamed = std::pow(0.6 * taken_for_ours + 0.4 / 2 * (right + wrong), 2);
  double sum = 0, odds[4];
  for (int m = 0; m < 4; ++m) {
    double donors = 0, weights = 0;
    for (int d = 0; d < 4; ++d) {
      const double weight = kind[d] > kind[m] ? 3 : 1;
      donors += weight * box(d);
      weights += weight;
    }
    odds[m] = lamp(m) * ((1 - c) * box(m) + c * (0.1 * unnamed + 0.9 * donors / weights));
    sum += odds[m];
  }
  double as_built = 0;
  for (int m = 0; m < 4; ++m) {
    CHECK(hand_row("1950-0" + std::to_string(m + 1)).odds == Approx(odds[m] / sum).margin(four_digits).epsilon(0));
    const auto kept = [&](double works, double changed_to_it) { return (1 - e) * works + e * (1 - from_outside) * changed_to_it * works; };
    const double to_low = family(2.5, 1.5, false, low[m] > 0);
    const double share = (right * kept(low[m], to_low) + wrong * kept(1 - low[m], 1 - to_low)) / lamp(m);
    as_built += odds[m] / sum * share;
  }
  CHECK(figure_after("Weighted with the odds of the months: P(lamps as built)") == Approx(as_built).margin(four_digits).epsilon(0));
}
