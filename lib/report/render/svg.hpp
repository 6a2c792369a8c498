#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/model/document.hpp"
#include "report/render/html_writer.hpp"
#include "assess/assessment.hpp"

/// Our own drawings. Each carries a title and a description, and each figure in it stands in the text or a table as well.
namespace exworks {

/// A canvas of a fixed width whose coordinates have two decimals, so that the same drawing is the same bytes. Colours are
/// attributes, for readers of SVG without a style sheet, and classes, which the page's style sheet overrides.
class Svg {
 public:
  static constexpr double width = 400;

  /// `id` makes the ids of the title and the description unique on the page.
  Svg(std::string_view id, double height, std::string_view title, std::string_view description);

  enum class Anchor { start, middle, end };
  void text(double x, double y, std::string_view words, Anchor anchor = Anchor::start, std::string_view tone = "ink", bool strong = false, double size = 12);
  void rect(double x, double y, double w, double h, std::string_view tone, double round = 0, double opacity = 1);
  void line(double x1, double y1, double x2, double y2, std::string_view tone = "line", bool dashed = false);
  void polygon(const std::vector<std::pair<double, double>>& points, std::string_view tone, double opacity = 1);
  void outline(const std::vector<std::pair<double, double>>& points, std::string_view tone, bool closed);
  std::string finish();

 private:
  HtmlWriter h_;
};

std::string fixed(double v);
/// The tone of a verdict: "g-original", "g-later" or "g-uncertain".
std::string_view verdict_tone(VerdictKind kind);
Mark verdict_mark(VerdictKind kind);
/// As much of the text as fits a width on the canvas at the usual size, with an ellipsis where it was cut.
std::string fitted(std::string_view text, std::size_t columns);

/// When the works fitted the value that was seen: [month of the family's window], the greatest share over the builds whose body
/// and market the vehicle may have. What a changeover's ramp leaves uncertain shows as a share between 0 and 1.
struct Period {
  std::size_t feature = 0;       ///< index into Assessment::features
  std::vector<double> share;
  bool never = false;            ///< on none of these vehicles
  bool always = false;           ///< in every month: tells nothing of the date
};
struct Periods {
  Month first;
  std::vector<Period> items;     ///< one an observed feature on which the pack speaks
};
Periods works_periods(const Tables& tables, const Assessment& assessment);
/// "Sep 1948 to Jan 1951", "never on these vehicles".
std::string period_text(const Periods& periods, const Period& period);

/// The odds of the build date over the years, and under it a bar for each telling feature's period.
Figure figure_dates(const Tables& tables, const Assessment& assessment);
/// Which features the figure draws, top to bottom.
std::vector<Period> chosen_periods(const Assessment& assessment, const Periods& periods);
Figure figure_odds(const Tables& tables, const Assessment& assessment);
Figure figure_plan(const Tables& tables, const Assessment& assessment);
Figure figure_score(const Assessment& assessment);

}  // namespace exworks
