#include "report/timeline_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/text.hpp"

namespace exworks {

namespace {

constexpr double width = 370, bar_left = 154, bar_right = 364, line = 15, bar_height = 14;
constexpr std::size_t tall = 24;  // a feature of more bars is set closer, or it would not fit in a column of an A3 page
constexpr std::size_t label_columns = 23, title_columns = 42;

struct Paint {
  const char *fill, *outline;
};
// Okabe and Ito's colours; the pale ones get a dark outline. Every bar has its label beside it, so no colour carries meaning.
constexpr Paint paints[] = {{"#0072B2", "#005A8C"}, {"#E69F00", "#7A5200"}, {"#009E73", "#00694D"}, {"#D55E00", "#B34700"}, {"#CC79A7", "#8C3F6B"}, {"#56B4E9", "#005A8C"}};

std::string number(double x) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.2f", x);
  return buffer;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else if (c == '"') out += "&quot;";
    else out += c;
  }
  return out;
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

std::vector<std::string> wrapped(const std::string& text, std::size_t columns) {
  std::vector<std::string> lines{""};
  for (const std::string& word : split_words(text)) {
    if (!lines.back().empty() && letters(lines.back()) + 1 + letters(word) > columns) lines.emplace_back();
    lines.back() += (lines.back().empty() ? "" : " ") + word;
  }
  return lines;
}

/// How a kind of text looks: as attributes, since the maker of PDFs takes no style sheet to drawings.
struct Look {
  const char* kind;
  int size;
  const char *weight, *fill, *anchor;
};
constexpr Look looks[] = {{"head", 20, "700", "#1A1A1A", "start"}, {"place", 15, "700", "#1A1A1A", "start"}, {"name", 14, "600", "#1A1A1A", "start"},  {"market", 12, "600", "#005A8C", "start"},
                          {"label", 12, "400", "#1A1A1A", "start"}, {"date", 12, "400", "#595959", "start"}, {"how", 12, "400", "#595959", "start"}, {"year", 12, "400", "#595959", "middle"}};

std::string text_at(double x, double y, const std::string& text, std::string_view kind) {
  const Look& look = *std::find_if(std::begin(looks), std::end(looks) - 1, [&](const Look& l) { return l.kind == kind; });
  return "<text x=\"" + number(x) + "\" y=\"" + number(y) + "\" font-size=\"" + std::to_string(look.size) + "\" font-weight=\"" + look.weight + "\" fill=\"" + look.fill + "\" text-anchor=\"" + look.anchor + "\">" +
         escaped(text) + "</text>\n";
}

/// "Sep 1948 – Jan 1951"; of several runs the whole, since the bars show the gaps.
std::string dates(const TimelineBar& bar) { return to_words(bar.spans.front().from) + " – " + to_words(bar.spans.back().to); }

class Block {
 public:
  /// `pattern`: the id of the hatching.
  Block(const Tables& tables, const Timeline& timeline, const TimelineFeature& feature, std::string pattern)
      : t_(tables), line_(timeline), f_(feature), info_(tables.features[feature.feature]), hatching_("url(#" + pattern + ")") {}

  /// The drawing of one feature, `height` its size; to be put inside an <svg>.
  std::string run(double& height) {
    for (const std::string& part : wrapped(info_.name, title_columns)) {
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
      out += "<line x1=\"" + number(x) + "\" y1=\"" + number(top) + "\" x2=\"" + number(x) + "\" y2=\"" + number(bottom) + "\" stroke=\"#D9D9D9\"/>\n";
      if (x < bar_right - 14) out += text_at(x, bottom + 13, std::to_string(year), "year");
    }
    return out;
  }

  void group(const TimelineGroup& g) {
    if (f_.groups.size() > 1) {
      std::vector<std::string> names;
      for (std::size_t m : g.markets) names.push_back(t_.markets[m].name);
      for (const std::string& part : wrapped(g.others ? "Other markets" : join_and(names), title_columns)) {
        y_ += line;
        body_ += text_at(0, y_, part, "market");
      }
      y_ += 3;
    }
    for (const TimelineBar& b : g.bars) bar(b, g.bars.size() > tall ? 3 : 5);
  }

  void bar(const TimelineBar& b, double gap) {
    const bool silent = b.value == info_.values.size();
    const auto label = wrapped(silent ? "(the pack is silent)" : info_.values[b.value].name, label_columns);
    const double top = y_;
    for (const std::string& part : label) {
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
      points += (points.empty() ? "" : " ") + number(x_of(month)) + "," + number(base - std::max(part * bar_height, 1.5));
    };
    for (Month m = s.from; m <= s.to; m = m + 1) {
      if (m != s.from && m != s.to && std::abs(share(m) - share(m - 1)) < 0.005 && std::abs(share(m) - share(m + 1)) < 0.005) continue;
      point(m.index, share(m));
      point(m.index + 1, share(m));
    }
    points += " " + number(x_of(s.to.index + 1)) + "," + number(base) + " " + number(x_of(s.from.index)) + "," + number(base);
    return "<polygon points=\"" + points + "\" fill=\"" + paint.fill + "\" stroke=\"" + paint.outline + "\"/>\n";
  }

  const Tables& t_;
  const Timeline& line_;
  const TimelineFeature& f_;
  const FeatureInfo& info_;
  std::string hatching_, body_;
  double y_ = 0;
};

constexpr const char* style = "<style>text{font-family:system-ui,sans-serif}</style>\n";

/// The hatching of silent bars. Each drawing of a page has its own: some readers find none outside it.
std::string silent_pattern(const std::string& id) {
  return "<defs><pattern id=\"" + id + "\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#FFFFFF\"/>"
         "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"6\" stroke=\"#595959\" stroke-width=\"2\"/></pattern></defs>\n";
}

std::string how_to_read() {
  return "A bar is as high as the share of the vehicles that left the works with it. A step or a slope is a change whose month is not known exactly, or that did not reach every variant at "
         "once; a low bar is an option or the choice of few variants. Hatched: the pack does not say.";
}

std::string heading(const Tables& t, const Timeline& line) { return t.name + ", " + std::to_string(line.first.year()) + " to " + std::to_string(line.last.year()); }

struct Piece {
  std::string svg;
  double height = 0;
  bool place = false;  ///< a heading, which must not end a column
};

std::vector<Piece> pieces(const Tables& t, const Timeline& line) {
  std::vector<Piece> out;
  std::optional<std::size_t> place;
  for (const TimelineFeature& f : line.features) {
    if (place != t.features[f.feature].place) {
      place = t.features[f.feature].place;
      out.push_back({text_at(0, 22, t.places[*place].name, "place"), 32, true});
    }
    Piece piece;
    piece.svg = Block(t, line, f, "silent").run(piece.height);
    out.push_back(std::move(piece));
  }
  return out;
}

struct Placed {
  double x = 0, y = 0;
};

/// Fills column after column down to `limit`; returns the height that was needed and how many columns.
double place(const std::vector<Piece>& all, double limit, std::vector<Placed>& where, int& columns) {
  where.clear();
  columns = 1;
  double y = 0, deepest = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double wanted = all[i].height + (all[i].place && i + 1 < all.size() ? all[i + 1].height : 0);
    if (y > 0 && y + wanted > limit) {
      y = 0;
      ++columns;
    }
    where.push_back({(columns - 1) * (width + 20), y});
    y += all[i].height;
    deepest = std::max(deepest, y);
  }
  return deepest;
}

}  // namespace

std::string svg_timeline(const Tables& t, const Timeline& line, int columns) {
  const std::vector<Piece> all = pieces(t, line);
  double total = 0;
  for (const Piece& p : all) total += p.height;
  if (columns == 0) columns = std::max(1, static_cast<int>(std::lround(std::sqrt(std::sqrt(2.0) * total / (width + 20)))));
  std::vector<Placed> where;
  int used = 0;
  double limit = total / columns, depth = 0;
  // Blocks don't split, so the even share may need a column too many: give each a little more until it fits.
  do {
    depth = place(all, limit, where, used);
    limit *= 1.01;
  } while (used > columns);
  const double sheet_width = used * (width + 20);
  const auto notes = wrapped(how_to_read(), std::max<std::size_t>(60, static_cast<std::size_t>(sheet_width / 6.6)));
  const double top = 48 + 15 * static_cast<double>(notes.size());
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + number(sheet_width) + " " + number(top + depth + 10) + "\" role=\"img\" font-family=\"sans-serif\" aria-labelledby=\"t d\">\n<title id=\"t\">" +
                    escaped(heading(t, line)) + "</title>\n<desc id=\"d\">" + escaped(how_to_read()) + "</desc>\n" + style + silent_pattern("silent") + "<rect width=\"100%\" height=\"100%\" fill=\"#FFFFFF\"/>\n" +
                    text_at(10, 28, heading(t, line), "head");
  for (std::size_t i = 0; i < notes.size(); ++i) out += text_at(10, 48 + 15 * static_cast<double>(i), notes[i], "how");
  for (std::size_t i = 0; i < all.size(); ++i) out += "<g transform=\"translate(" + number(where[i].x + 10) + " " + number(where[i].y + top) + ")\">\n" + all[i].svg + "</g>\n";
  return out + "</svg>\n";
}

std::string html_timeline(const Tables& t, const Timeline& line) {
  std::string out = "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n<title>" + escaped(heading(t, line)) + "</title>\n" + style +
                    "<style>body{margin:0 10px 20px;background:#FFFFFF;color:#1A1A1A;font:14px/1.4 system-ui,sans-serif}h1{font-size:20px}h2{font-size:16px;margin:20px 0 0;break-after:avoid}"
                    ".features{columns:350px;column-gap:20px}"
                    "figure{margin:0;padding-top:8px;break-inside:avoid}svg{width:100%;max-width:520px;height:auto;display:block}p{max-width:70em}"
                    "@media print{@page{size:A3 landscape;margin:12mm}.features{columns:4}figure{padding-top:4px}h2{margin:8px 0 0}polygon{print-color-adjust:exact}}</style>\n</head>\n<body>\n<main>\n<h1>" +
                    escaped(heading(t, line)) + "</h1>\n<p>" + escaped(how_to_read()) + "</p>\n";
  std::optional<std::size_t> place;
  for (const TimelineFeature& f : line.features) {
    const FeatureInfo& info = t.features[f.feature];
    if (place != info.place) {
      out += (place ? "</div>\n" : "") + std::string("<h2>") + escaped(t.places[info.place].name) + "</h2>\n<div class=\"features\">\n";
      place = info.place;
    }
    double height = 0;
    const std::string pattern = "silent-" + info.id;
    const std::string drawing = Block(t, line, f, pattern).run(height);
    out += "<figure id=\"" + info.id + "\"><svg viewBox=\"0 0 " + number(width) + " " + number(height) + "\" role=\"img\" font-family=\"sans-serif\" aria-label=\"" + escaped(info.name) + "\">\n" + (drawing.find(pattern) == std::string::npos ? "" : silent_pattern(pattern)) + drawing + "</svg></figure>\n";
  }
  return out + (place ? "</div>\n" : "") + "</main>\n</body>\n</html>\n";
}

}  // namespace exworks
