#include "report/answers/trial_report.hpp"

#include <cstdio>
#include <nlohmann/json.hpp>

#include "report/render/page.hpp"

namespace exworks {

namespace {

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
  page.paragraph("Right world: as the pack believes. Wrong world: rates of change doubled, changeovers shifted three months, 5 % of the values outside the pack.");
  page.blank();
  const auto row = [&](const std::string& name, double right, double wrong) { page.leader(name, figure(right) + "   " + figure(wrong)); };
  page.leader("", "right   wrong");
  row("true variant first", t.right.variant_first, t.wrong.variant_first);
  row("build date within 6 months of the median", t.right.within_6_months, t.wrong.within_6_months);
  row("build date in the 90 % date set, cut to exactly 90 %", t.right.date_set_coverage, t.wrong.date_set_coverage);
  row("build date in the date set as printed, in whole months", t.right.whole_month_coverage, t.wrong.whole_month_coverage);
  row("true score in its 90 % interval (whole weights)", t.right.score_interval_coverage, t.wrong.score_interval_coverage);
  row("'original' that is so", t.right.precision_original, t.wrong.precision_original);
  row("'later change' that is so", t.right.precision_later, t.wrong.precision_later);
  row("share of verdicts 'uncertain'", t.right.uncertain_share, t.wrong.uncertain_share);
  row("Brier score of P(type as built)", t.right.brier, t.wrong.brier);
  row("median date window, months", t.right.median_window_months, t.wrong.median_window_months);
  page.heading("Reliability of P(type as built)");
  page.leader("tenth", "stated   came true        n     stated   came true        n");
  for (std::size_t i = 0; i < 10; ++i) {
    const ReliabilityRow& a = t.right.reliability[i];
    const ReliabilityRow& b = t.wrong.reliability[i];
    char line[96];
    std::snprintf(line, sizeof line, "%6.3f   %9.3f %8zu     %6.3f   %9.3f %8zu", a.stated, a.came_true, a.n, b.stated, b.came_true, b.n);
    page.leader(fixed(a.from).substr(0, 3) + " to " + fixed(a.to).substr(0, 3), line);
  }
  return page.text();
}

nlohmann::ordered_json json_trial(const Trial& t) {
  return {{"family", t.family}, {"n", t.n}, {"seed", t.seed}, {"right_world", world(t.right)}, {"wrong_world", world(t.wrong)}};
}

std::string svg_reliability(const Trial& t) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 460 460\" role=\"img\" aria-labelledby=\"t d\" font-family=\"system-ui, sans-serif\" font-size=\"13\">\n"
                    "<title id=\"t\">Stated odds and what came true: " + t.family + "</title>\n<desc id=\"d\">In the right world the odds come true: a Brier score of " + figure(t.right.brier) +
                    "; in the wrong world " + figure(t.wrong.brier) + ".</desc>\n<rect width=\"460\" height=\"460\" fill=\"#FFFFFF\"/>\n";
  for (int i = 0; i <= 10; i += 2) {
    const std::string x = fixed(60 + 36.0 * i), y = fixed(400 - 36.0 * i), label = fixed(i / 10.0).substr(0, 3);
    svg += "<line x1=\"" + x + "\" y1=\"40\" x2=\"" + x + "\" y2=\"400\" stroke=\"#D9D9D9\"/><line x1=\"60\" y1=\"" + y + "\" x2=\"420\" y2=\"" + y + "\" stroke=\"#D9D9D9\"/>";
    svg += "<text x=\"" + x + "\" y=\"418\" text-anchor=\"middle\" fill=\"#1A1A1A\">" + label + "</text><text x=\"52\" y=\"" + y + "\" text-anchor=\"end\" fill=\"#1A1A1A\">" + label + "</text>\n";
  }
  svg += "<line x1=\"60\" y1=\"400\" x2=\"420\" y2=\"40\" stroke=\"#595959\" stroke-dasharray=\"2 4\"/>\n";
  svg += svg_line(t.right, "#0072B2", "", "circle") + svg_line(t.wrong, "#D55E00", "6 4", "square");
  svg += "<text x=\"240\" y=\"444\" text-anchor=\"middle\" fill=\"#1A1A1A\">stated P(type as built)</text><text x=\"18\" y=\"220\" text-anchor=\"middle\" transform=\"rotate(-90 18 220)\" fill=\"#1A1A1A\">came true</text>\n";
  svg += "<text x=\"70\" y=\"58\" fill=\"#005A8C\">&#9679; right world</text><text x=\"70\" y=\"76\" fill=\"#B34700\">&#9632; wrong world</text><text x=\"60\" y=\"28\" fill=\"#1A1A1A\">" + t.family + ", " +
         std::to_string(t.n) + " vehicles a world</text>\n</svg>\n";
  return svg;
}

}  // namespace exworks
