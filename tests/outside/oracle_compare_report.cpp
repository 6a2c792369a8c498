#include <algorithm>

#include "engine/evidence/given.hpp"
#include "oracle_compare.hpp"

/// What a report says beside the findings: marginals, papers, claims.
namespace exworks::test::oracle {

namespace {

void compare_odds(const std::string& what, const std::vector<Odds>& odds, const Reals& due, Differences& out) {
  Reals missing = due;
  for (const Odds& o : odds) {
    out.compare("P(" + what + std::to_string(o.index) + ")", o.p, due.at(o.index));
    missing[o.index] = 0;
  }
  out.check(what + ": a member with odds is not listed",
            std::all_of(missing.begin(), missing.end(), [](Real p) { return p <= 0; }));
  out.check(what + ": odds in order",
            std::is_sorted(odds.begin(), odds.end(), [](const Odds& a, const Odds& b) { return a.p > b.p; }));
}

/// Engine and oracle list papers and claims in the order of the inspection; a claim that weighs may stand among the papers.
void compare_papers(const Case& c, const Model& model, const Answer& answer, const Assessment& assessment, Differences& out) {
  std::vector<Paper> papers = model.papers();
  out.check("the number of papers", assessment.documents.size() == papers.size());
  if (assessment.documents.size() == papers.size()) {
    for (std::size_t i = 0; i < papers.size(); ++i)
      out.compare("P(paper " + std::to_string(i) + " is right)", assessment.documents[i].p_right,
                  model.paper_right(papers[i], answer.build));
  }
  out.check("the number of claims", assessment.claims.size() == c.visit.claims.size());
  for (std::size_t i = 0; i < std::min(assessment.claims.size(), c.visit.claims.size()); ++i)
    out.compare("P(claim " + std::to_string(i) + ")", assessment.claims[i].p,
                model.claim_odds(c.visit.claims[i], answer.build));
}

}  // namespace

void compare_report(const Case& c, const Model& model, const Answer& answer, Differences& out) {
  Settings settings;
  settings.fit_draws = 0;
  settings.readings = settings.hinges = false;
  Diagnostics d;
  const Given given = parse_given(c.tables, given_words(c.visit), {}, d);
  const auto assessment = assess(c.tables, inspection_from_text(c.xml), settings, given, d);
  REQUIRE(assessment);
  compare_papers(c, model, answer, *assessment, out);
  compare_numbers(c, model, answer, *assessment, out);
  Reals generations(c.pack.generations, 0), variants(c.pack.variants.size(), 0), bodies(c.pack.bodies, 0),
      markets(c.pack.markets.size(), 0), plants(c.pack.plants.size(), 0), months(assessment->month_odds.size(), 0);
  for (std::size_t b = 0; b < model.builds().size(); ++b) {
    const Build& build = model.builds()[b];
    generations[c.pack.variants[build.variant].generation] += answer.build[b];
    variants[build.variant] += answer.build[b];
    bodies[c.pack.variants[build.variant].body] += answer.build[b];
    markets[build.market] += answer.build[b];
    plants[build.plant] += answer.build[b];
    months.at(static_cast<std::size_t>(Month::of(1950, 1) + build.month - assessment->first_month)) += answer.build[b];
  }
  compare_odds("generation ", assessment->generations, generations, out);
  compare_odds("variant ", assessment->variants, variants, out);
  compare_odds("body ", assessment->bodies, bodies, out);
  compare_odds("market ", assessment->markets, markets, out);
  compare_odds("plant ", assessment->plants, plants, out);
  out.compare("P(month)", assessment->month_odds, months);
}

}  // namespace exworks::test::oracle
