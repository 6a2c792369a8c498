#include "report/render/timeline_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "report/render/html_writer.hpp"
#include "report/render/timeline_block.hpp"

namespace exworks {

namespace {

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
      out.push_back({text_at(0, 22, t.catalogue.places[*place].name, "place"), 32, true});
    }
    std::size_t part = 0;
    for (const TimelineFeature& column : in_columns(t, f)) {
      Piece piece;
      piece.svg = draw_feature(t, line, column, f.groups.size() > 1, part++, "silent", piece.height);
      out.push_back(std::move(piece));
    }
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
    where.push_back({(columns - 1) * (timeline_width + 20), y});
    y += all[i].height;
    deepest = std::max(deepest, y);
  }
  return deepest;
}

std::string figure(const Tables& t, const Timeline& line, const TimelineFeature& column, bool markets, std::size_t part, const std::string& id) {
  double height = 0;
  const std::string pattern = "silent-" + id;
  const std::string drawing = draw_feature(t, line, column, markets, part, pattern, height);
  return "<figure id=\"" + id + "\"><svg viewBox=\"0 0 " + svg_number(timeline_width) + " " + svg_number(height) + "\" role=\"img\" font-family=\"sans-serif\" aria-label=\"" + escaped(t.features[column.feature].name) + "\">\n" +
         (drawing.find(pattern) == std::string::npos ? "" : silent_pattern(pattern)) + drawing + "</svg></figure>\n";
}

}  // namespace

std::string svg_timeline(const Tables& t, const Timeline& line, int columns) {
  const std::vector<Piece> all = pieces(t, line);
  double total = 0;
  for (const Piece& p : all) total += p.height;
  if (columns == 0) columns = std::max(1, static_cast<int>(std::lround(std::sqrt(std::sqrt(2.0) * total / (timeline_width + 20)))));
  std::vector<Placed> where;
  int used = 0;
  double limit = total / columns, depth = 0;
  // Blocks don't split, so the even share may need a column too many: give each a little more until it fits.
  do {
    depth = place(all, limit, where, used);
    limit *= 1.01;
  } while (used > columns);
  const double sheet_width = used * (timeline_width + 20);
  const auto notes = wrapped(how_to_read(), std::max<std::size_t>(60, static_cast<std::size_t>(sheet_width / 6.6)));
  const double top = 48 + 15 * static_cast<double>(notes.size());
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + svg_number(sheet_width) + " " + svg_number(top + depth + 10) + "\" role=\"img\" font-family=\"sans-serif\" aria-labelledby=\"t d\">\n<title id=\"t\">" +
                    escaped(heading(t, line)) + "</title>\n<desc id=\"d\">" + escaped(how_to_read()) + "</desc>\n" + style + silent_pattern("silent") + "<rect width=\"100%\" height=\"100%\" fill=\"#FFFFFF\"/>\n" +
                    text_at(10, 28, heading(t, line), "head");
  for (std::size_t i = 0; i < notes.size(); ++i) out += text_at(10, 48 + 15 * static_cast<double>(i), notes[i], "how");
  for (std::size_t i = 0; i < all.size(); ++i) out += "<g transform=\"translate(" + svg_number(where[i].x + 10) + " " + svg_number(where[i].y + top) + ")\">\n" + all[i].svg + "</g>\n";
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
      out += (place ? "</div>\n" : "") + std::string("<h2>") + escaped(t.catalogue.places[info.place].name) + "</h2>\n<div class=\"features\">\n";
      place = info.place;
    }
    std::size_t part = 0;
    for (const TimelineFeature& column : in_columns(t, f)) {
      const std::string id = info.id + (part > 0 ? "-" + std::to_string(part + 1) : "");
      out += figure(t, line, column, f.groups.size() > 1, part++, id);
    }
  }
  return out + (place ? "</div>\n" : "") + "</main>\n</body>\n</html>\n";
}

}  // namespace exworks
