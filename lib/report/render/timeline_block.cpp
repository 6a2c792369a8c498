#include "report/render/timeline_block.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/text.hpp"
#include "report/render/html_writer.hpp"
#include "report/render/page.hpp"

namespace exworks {

namespace {

constexpr double bar_left = 154, bar_right = 364, line = 15, bar_height = 14, gap = 5;
constexpr double column_height = 980;  // what is sure to fit in a column of an A3 page, four to a page
constexpr std::size_t label_columns = 23, title_columns = 42;

struct Paint {
  const char *fill, *outline;
};
// Okabe and Ito's colours; the pale ones get a dark outline. Every bar has its label beside it, so no colour carries meaning.
constexpr Paint paints[] = {{"#0072B2", "#005A8C"}, {"#E69F00", "#7A5200"}, {"#009E73", "#00694D"}, {"#D55E00", "#B34700"}, {"#CC79A7", "#8C3F6B"}, {"#56B4E9", "#005A8C"}};

/// How a kind of text looks: as attributes, since the maker of PDFs takes no style sheet to drawings.
struct Look {
  const char* kind;
  int size;
  const char *weight, *fill, *anchor;
};
constexpr Look looks[] = {{"head", 20, "700", "#1A1A1A", "start"}, {"place", 15, "700", "#1A1A1A", "start"}, {"name", 14, "600", "#1A1A1A", "start"},  {"market", 12, "600", "#005A8C", "start"},
                          {"label", 12, "400", "#1A1A1A", "start"}, {"date", 12, "400", "#595959", "start"}, {"how", 12, "400", "#595959", "start"}, {"year", 12, "400", "#595959", "middle"}};

/// "Sep 1948 – Jan 1951"; of several runs the whole, since the bars show the gaps.
std::string dates(const TimelineBar& bar) { return to_words(bar.spans.front().from) + " – " + to_words(bar.spans.back().to); }

std::vector<std::string> label(const FeatureInfo& info, const TimelineBar& b) {
  return wrapped(b.value == info.values.size() ? "(the pack is silent)" : info.values[b.value].name, label_columns);
}

class Block {
 public:
  /// `markets`: the feature differs by market, so that each group of bars is headed by its own. `part`: 0 for the first piece.
  /// `pattern`: the id of the hatching.
  Block(const Tables& tables, const Timeline& timeline, const TimelineFeature& feature, bool markets, std::size_t part, std::string pattern)
      : t_(tables), line_(timeline), f_(feature), info_(tables.features[feature.feature]), markets_(markets), part_(part), hatching_("url(#" + pattern + ")") {}

  /// The drawing of one feature, `height` its size; to be put inside an <svg>.
  std::string run(double& height) {
    for (const std::string& part : wrapped(info_.name + (part_ > 0 ? ", continued" : ""), title_columns)) {
      y_ += 18;
      body_ += text_at(0, y_, part, "name");
    }
    y_ += 6;
    const double top = y_;
    for (const TimelineGroup& g : f_.groups) group(g);
    const std::string frame = years(top, y_);
    height = y_ + 20;
    return frame + body_;
  }

 private:
  double x_of(double month) const { return bar_left + (bar_right - bar_left) * (month - line_.first.index) / static_cast<double>(line_.last - line_.first + 1); }

  /// Lines and figures of the years; they lie under the bars.
  std::string years(double top, double bottom) const {
    const int first = line_.first.year(), last = line_.last.year();
    const int step = last - first > 40 ? 10 : 5;
    std::string out;
    for (int year = (first + step - 1) / step * step; year <= last; year += step) {
      const double x = x_of(Month::of(year, 1).index);
      out += "<line x1=\"" + svg_number(x) + "\" y1=\"" + svg_number(top) + "\" x2=\"" + svg_number(x) + "\" y2=\"" + svg_number(bottom) + "\" stroke=\"#D9D9D9\"/>\n";
      if (x < bar_right - 14) out += text_at(x, bottom + 13, std::to_string(year), "year");
    }
    return out;
  }

  void group(const TimelineGroup& g) {
    if (markets_) {
      std::vector<std::string> names;
      for (std::size_t m : g.markets) names.push_back(t_.axes.markets[m].name);
      for (const std::string& part : wrapped(g.others ? "Other markets" : join_and(names), title_columns)) {
        y_ += line;
        body_ += text_at(0, y_, part, "market");
      }
      y_ += 3;
    }
    for (const TimelineBar& b : g.bars) bar(b);
  }

  void bar(const TimelineBar& b) {
    const bool silent = b.value == info_.values.size();
    const double top = y_;
    for (const std::string& part : label(info_, b)) {
      y_ += line;
      body_ += text_at(0, y_ - 3, part, "label");
    }
    y_ += line - 1;
    body_ += text_at(0, y_ - 3, dates(b), "date");
    const Paint paint = silent ? Paint{hatching_.c_str(), "#595959"} : paints[b.value % std::size(paints)];
    body_ += "<g><title>" + escaped((silent ? std::string("the pack is silent") : info_.values[b.value].name) + ": " + dates(b)) + "</title>\n";
    for (const TimelineSpan& s : b.spans) body_ += shape(b, s, top + 4, paint);
    body_ += "</g>\n";
    y_ += gap;
  }

  /// The bar is as high as the share of the vehicles that had it: an uncertain changeover shows as a slope, an option as a low bar.
  std::string shape(const TimelineBar& b, const TimelineSpan& s, double top, Paint paint) const {
    const auto share = [&](Month m) { return b.share[static_cast<std::size_t>(m - line_.first)]; };
    const double base = top + bar_height;
    std::string points;
    const auto point = [&](double month, double part) {
      points += (points.empty() ? "" : " ") + svg_number(x_of(month)) + "," + svg_number(base - std::max(part * bar_height, 1.5));
    };
    for (Month m = s.from; m <= s.to; m = m + 1) {
      if (m != s.from && m != s.to && std::abs(share(m) - share(m - 1)) < 0.005 && std::abs(share(m) - share(m + 1)) < 0.005) continue;
      point(m.index, share(m));
      point(m.index + 1, share(m));
    }
    points += " " + svg_number(x_of(s.to.index + 1)) + "," + svg_number(base) + " " + svg_number(x_of(s.from.index)) + "," + svg_number(base);
    return "<polygon points=\"" + points + "\" fill=\"" + paint.fill + "\" stroke=\"" + paint.outline + "\"/>\n";
  }

  const Tables& t_;
  const Timeline& line_;
  const TimelineFeature& f_;
  const FeatureInfo& info_;
  bool markets_;
  std::size_t part_;
  std::string hatching_, body_;
  double y_ = 0;
};

}  // namespace

std::string svg_number(double x) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.2f", x);
  return buffer;
}

std::vector<std::string> wrapped(const std::string& text, std::size_t columns) {
  std::vector<std::string> lines{""};
  for (const std::string& word : split_words(text)) {
    if (!lines.back().empty() && columns_of(lines.back()) + 1 + columns_of(word) > columns) lines.emplace_back();
    lines.back() += (lines.back().empty() ? "" : " ") + word;
  }
  return lines;
}

std::string text_at(double x, double y, const std::string& text, std::string_view kind) {
  const Look& look = *std::find_if(std::begin(looks), std::end(looks) - 1, [&](const Look& l) { return l.kind == kind; });
  return "<text x=\"" + svg_number(x) + "\" y=\"" + svg_number(y) + "\" font-size=\"" + std::to_string(look.size) + "\" font-weight=\"" + look.weight + "\" fill=\"" + look.fill + "\" text-anchor=\"" + look.anchor + "\">" +
         escaped(text) + "</text>\n";
}

std::vector<TimelineFeature> in_columns(const Tables& t, const TimelineFeature& feature) {
  const auto height = [&](const TimelineBar& b) { return line * static_cast<double>(label(t.features[feature.feature], b).size() + 1) + gap - 1; };
  double total = 0;
  for (const TimelineGroup& g : feature.groups) {
    for (const TimelineBar& b : g.bars) total += height(b);
  }
  const double wanted = total / std::ceil(total / column_height);
  std::vector<TimelineFeature> out;
  double filled = wanted;
  for (const TimelineGroup& g : feature.groups) {
    bool begun = false;
    for (const TimelineBar& b : g.bars) {
      if (filled >= wanted - 0.5) {
        out.push_back({feature.feature, {}});
        filled = 0;
        begun = false;
      }
      if (!begun) out.back().groups.push_back({g.markets, g.others, {}});
      begun = true;
      out.back().groups.back().bars.push_back(b);
      filled += height(b);
    }
  }
  return out;
}

std::string draw_feature(const Tables& tables, const Timeline& timeline, const TimelineFeature& feature, bool by_market, std::size_t part, const std::string& pattern, double& height) {
  return Block(tables, timeline, feature, by_market, part, pattern).run(height);
}

}  // namespace exworks
