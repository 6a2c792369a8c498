#include "report/answers/trial_report.hpp"

#include <cstdio>
#include <iterator>
#include <nlohmann/json.hpp>

#include "report/render/page.hpp"

namespace exworks {

namespace {

/// In the order of `worlds`.
constexpr const char* world_names[] = {"as the pack believes",     "rates of change doubled",    "10 % from outside the pack", "changeovers off, one by one",
                                       "changeovers off, all alike", "silent builds as relatives", "half restored to a year",    "all of these together"};
static_assert(std::size(world_names) == std::size(worlds));

std::string figure(double x) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.3f", x);
  return buffer;
}

std::string fixed(double x) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.2f", x);
  return buffer;
}

nlohmann::ordered_json world(const TrialResult& r) {
  nlohmann::ordered_json out = {{"variant_first", r.variant_first}, {"within_6_months", r.within_6_months}, {"date_set_coverage", r.date_set_coverage},
                                {"whole_month_coverage", r.whole_month_coverage}, {"score_interval_coverage", r.score_interval_coverage}, {"precision_original", r.precision_original},
                                {"precision_later", r.precision_later}, {"uncertain_share", r.uncertain_share}, {"brier", r.brier}, {"median_window_months", r.median_window_months}};
  out["reliability"] = nlohmann::ordered_json::array();
  for (const ReliabilityRow& row : r.reliability) {
    out["reliability"].push_back({{"from", row.from}, {"to", row.to}, {"n", row.n}, {"stated", row.stated}, {"came_true", row.came_true}});
  }
  return out;
}

std::string svg_line(const TrialResult& r, const char* colour, const char* dash, const char* marker) {
  std::string points, marks;
  for (const ReliabilityRow& row : r.reliability) {
    if (row.n < 20) continue;  // too few to draw
    const std::string x = fixed(60 + 360 * row.stated), y = fixed(400 - 360 * row.came_true);
    points += (points.empty() ? "" : " ") + x + "," + y;
    marks += std::string(marker) == "circle" ? "<circle cx=\"" + x + "\" cy=\"" + y + "\" r=\"4\" fill=\"" + colour + "\"/>"
                                             : "<rect x=\"" + fixed(56 + 360 * row.stated) + "\" y=\"" + fixed(396 - 360 * row.came_true) + "\" width=\"8\" height=\"8\" fill=\"" + colour + "\"/>";
  }
  return "<polyline points=\"" + points + "\" fill=\"none\" stroke=\"" + colour + "\" stroke-width=\"2\" stroke-dasharray=\"" + dash + "\"/>" + marks + "\n";
}

}  // namespace

std::string text_trial(const Trial& t, bool colour) {
  Page page(colour);
  page.heading("Trial of pack " + t.family + ": " + std::to_string(t.n) + " simulated vehicles a world, seed " + std::to_string(t.seed));
  page.blank();
  page.leader("", "variant  date  months  orig.  later  open   Brier");
  for (std::size_t i = 0; i < std::size(world_names); ++i) {
    const TrialResult& r = t.in_world[i];
    char line[96];
    std::snprintf(line, sizeof line, "%.3f  %.3f  %5.0f  %.3f  %.3f  %.3f  %.3f", r.variant_first, r.date_set_coverage, r.median_window_months, r.precision_original, r.precision_later, r.uncertain_share, r.brier);
    page.leader(world_names[i], line);
  }
  page.blank();
  page.paragraph("variant: the true one leads. date: the build date lies in the 90 % date set, cut to exactly 90 %. months: median width of the printed set. orig. and later: of the verdicts 'original' and 'later change', "
                 "those that are so. open: share of verdicts 'uncertain'. Brier: mean square of the error of P(type as built).");
  page.heading("Reliability of P(type as built): as the pack believes, and all together");
  page.leader("tenth", "stated   came true        n     stated   came true        n");
  for (std::size_t i = 0; i < 10; ++i) {
    const ReliabilityRow& a = t.in_world.front().reliability[i];
    const ReliabilityRow& b = t.in_world.back().reliability[i];
    char line[96];
    std::snprintf(line, sizeof line, "%6.3f   %9.3f %8zu     %6.3f   %9.3f %8zu", a.stated, a.came_true, a.n, b.stated, b.came_true, b.n);
    page.leader(fixed(a.from).substr(0, 3) + " to " + fixed(a.to).substr(0, 3), line);
  }
  return page.text();
}

nlohmann::ordered_json json_trial(const Trial& t) {
  nlohmann::ordered_json out = {{"family", t.family}, {"n", t.n}, {"seed", t.seed}, {"worlds", nlohmann::ordered_json::array()}};
  for (std::size_t i = 0; i < t.in_world.size(); ++i) {
    nlohmann::ordered_json one = {{"id", worlds[i].id}, {"name", world_names[i]}};
    one.update(world(t.in_world[i]));
    out["worlds"].push_back(std::move(one));
  }
  return out;
}

std::string svg_reliability(const Trial& t) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 460 460\" role=\"img\" aria-labelledby=\"t d\" font-family=\"system-ui, sans-serif\" font-size=\"13\">\n"
                    "<title id=\"t\">Stated odds and what came true: " + t.family + "</title>\n<desc id=\"d\">In the right world the odds come true: a Brier score of " + figure(t.in_world.front().brier) +
                    "; in a world that the pack has wrong in every way " + figure(t.in_world.back().brier) + ".</desc>\n<rect width=\"460\" height=\"460\" fill=\"#FFFFFF\"/>\n";
  for (int i = 0; i <= 10; i += 2) {
    const std::string x = fixed(60 + 36.0 * i), y = fixed(400 - 36.0 * i), label = fixed(i / 10.0).substr(0, 3);
    svg += "<line x1=\"" + x + "\" y1=\"40\" x2=\"" + x + "\" y2=\"400\" stroke=\"#D9D9D9\"/><line x1=\"60\" y1=\"" + y + "\" x2=\"420\" y2=\"" + y + "\" stroke=\"#D9D9D9\"/>";
    svg += "<text x=\"" + x + "\" y=\"418\" text-anchor=\"middle\" fill=\"#1A1A1A\">" + label + "</text><text x=\"52\" y=\"" + y + "\" text-anchor=\"end\" fill=\"#1A1A1A\">" + label + "</text>\n";
  }
  svg += "<line x1=\"60\" y1=\"400\" x2=\"420\" y2=\"40\" stroke=\"#595959\" stroke-dasharray=\"2 4\"/>\n";
  svg += svg_line(t.in_world.front(), "#0072B2", "", "circle") + svg_line(t.in_world.back(), "#D55E00", "6 4", "square");
  svg += "<text x=\"240\" y=\"444\" text-anchor=\"middle\" fill=\"#1A1A1A\">stated P(type as built)</text><text x=\"18\" y=\"220\" text-anchor=\"middle\" transform=\"rotate(-90 18 220)\" fill=\"#1A1A1A\">came true</text>\n";
  svg += "<text x=\"70\" y=\"58\" fill=\"#005A8C\">&#9679; as the pack believes</text><text x=\"70\" y=\"76\" fill=\"#B34700\">&#9632; all wrong together</text><text x=\"60\" y=\"28\" fill=\"#1A1A1A\">" + t.family + ", " +
         std::to_string(t.n) + " vehicles a world</text>\n</svg>\n";
  return svg;
}

}  // namespace exworks
