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
    const auto of_unit = [&](std::size_t unit) {
      const UnitView& view = posterior.branches[0].views[unit];
      return std::exp(view.log_p[view.target_of[cell]]);
    };
    CHECK(of_unit(lamps) == Approx(hand.lamps).margin(six_digits).epsilon(0));
    CHECK(of_unit(gearbox) == Approx(hand.gearbox).margin(six_digits).epsilon(0));
    CHECK(posterior.build[build] == Approx(hand.odds).margin(four_digits).epsilon(0));
  }
  const AssemblyLikelihood::Target target = posterior.branches[0].views[lamps].targets[posterior.branches[0].views[lamps].target_of[tables.cell_of[2]]];
  const double march = posterior.branches[0].views[lamps].log_p[posterior.branches[0].views[lamps].target_of[tables.cell_of[2]]];
  CHECK(split_type(posterior.units[lamps], target, 0, march).type == Approx(figure_after("    March:")).margin(six_digits).epsilon(0));
  for (const FeatureFinding& f : feature_findings(evidence, posterior)) {
    if (tables.features[f.feature].id == "lamps") CHECK(f.p_type == Approx(figure_after("Weighted with the odds of the months: P(lamps as built)")).margin(four_digits).epsilon(0));
  }
}

TEST_CASE("the handbook's example again, by plain arithmetic", "[outside][handbook]") {
  // The formulas of the page, without the engine; so a slip of the pen and a slip of the engine can't hide each other.
  const auto likelihood = [](double works) {
    const double there = 0.96 * works + 0.04 / 3;
    return 0.99 * there + 0.005 * (1 - there);
  };
  const double low[] = {1, 1, 0.5, 0}, fresh[] = {0, 0.5, 1, 1};
  double donors = 0, sum = 0, odds[4];
  for (double f : fresh) donors += likelihood(f) * likelihood(f) / 4;
  for (int m = 0; m < 4; ++m) {
    odds[m] = likelihood(low[m]) * (0.8 * likelihood(fresh[m]) * likelihood(fresh[m]) + 0.2 * donors);
    sum += odds[m];
  }
  double as_built = 0;
  for (int m = 0; m < 4; ++m) {
    CHECK(hand_row("1950-0" + std::to_string(m + 1)).odds == Approx(odds[m] / sum).margin(four_digits).epsilon(0));
    const double share = (0.96 + 0.04 / 3) * (0.99 * low[m] + 0.005 * (1 - low[m])) / likelihood(low[m]);
    as_built += odds[m] / sum * share;
  }
  CHECK(figure_after("Weighted with the odds of the months: P(lamps as built)") == Approx(as_built).margin(four_digits).epsilon(0));
}
